/** Stands where the guide's line will be, as high as it: the drawing keeps its size when the line comes. */
export function GuideWait() {
  return <p className="note guided-wait">Guide: one moment …</p>;
}
