/** One valid call of an exported function: its arguments, or the arguments and what to leave alone in them. */
export type Call =
  | readonly unknown[]
  | {
      readonly args: readonly unknown[];
      /**
       * Paths (`region`, `links[0].antenna`) that stand for constants of the product, not for numbers of a caller: the compiler
       * guards them, and the function does not look through them again.
       */
      readonly constants?: readonly string[];
      /** Paths of series that hold NaN as 'no data' by contract, in arguments and in the result. */
      readonly noData?: readonly string[];
    };

/** Valid calls by the name of the function; a second call of the same function has a word behind the name. */
export type Calls = Readonly<Record<string, Call>>;

/** Functions that take numbers and yet need no entry, each with the reason. */
export type Exempt = Readonly<Record<string, string>>;
