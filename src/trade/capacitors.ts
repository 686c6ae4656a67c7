/** How long electrolytics last: makers' technical pages (read) for the law, common practice for what is wanted. */
export const CAPACITOR_LIFE = {
  /** Own heat by ripple current, K (common practice, no source). */
  ownK: 5,
  /** Running hours wanted. */
  wantedH: 5000,
  /** Temperatures that electrolytics are rated for, degrees C. */
  ratingsC: [85, 105, 125],
} as const;
