/** Why a function has no evidence of a kind. */
export interface Reason {
  readonly because: string;
  /** Functions of the same package, inner ones included, whose own evidence of that kind stands for it. */
  readonly parts?: readonly string[];
}

/** Reasons by package and then by function, named as the page names it: `p526.model`. */
export type Reasons = Readonly<Record<string, Readonly<Record<string, Reason>>>>;
