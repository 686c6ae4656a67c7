/** Where a pointer is: world units, and client pixels. */
export interface Press {
  readonly x: number;
  readonly y: number;
  readonly clientX: number;
  readonly clientY: number;
  readonly shift: boolean;
}

/** One thing a pointer does from pressing to letting go. */
export interface Gesture {
  /** The pointer has travelled far enough to mean it, and every move after that. */
  move(at: Press): void;
  /** Let go after moving. */
  drop(at: Press): void;
  /** Let go without having moved. */
  click?(at: Press): void;
  /** Given up: everything as it was. */
  cancel(): void;
}
