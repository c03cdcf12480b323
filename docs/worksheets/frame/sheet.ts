import type { Finding } from '@finial/units';

/** What a person can enter: text of a choice, a number in SI units, a tick. */
export type Value = string | number | boolean;

interface FieldFrame<Key extends string> {
  readonly key: Key;
  readonly label: string;
  /** A sentence below the field, where the label alone would puzzle a newcomer. */
  readonly help?: string | undefined;
  /** Whether it is asked for with these values; always when left out. */
  readonly isAsked?: ((values: Readonly<Record<string, Value>>) => boolean) | undefined;
}

/** A number: held in SI units, shown in those of the trade. */
export interface NumberField<Key extends string> extends FieldFrame<Key> {
  readonly kind: 'number';
  readonly unit: string;
  /** Shown number times this is the value held: 1e6 for megahertz. */
  readonly scale?: number | undefined;
  readonly step?: number | undefined;
}

/** One of a few words. */
export interface ChoiceField<Key extends string> extends FieldFrame<Key> {
  readonly kind: 'choice';
  readonly choices: readonly { readonly value: string; readonly label: string }[];
}

/** Yes or no. */
export interface CheckField<Key extends string> extends FieldFrame<Key> {
  readonly kind: 'check';
}

/** A file of the person's own; it is read in the page and goes nowhere. */
export interface FileField<Key extends string> extends FieldFrame<Key> {
  readonly kind: 'file';
  /** Endings that the file chooser offers: `.s1p,.csv`. */
  readonly accept: string;
  readonly isMultiple?: boolean | undefined;
}

export type Field<Key extends string = string> =
  | NumberField<Key>
  | ChoiceField<Key>
  | CheckField<Key>
  | FileField<Key>;

/** Fields that belong together. */
export interface FieldGroup<Key extends string = string> {
  readonly legend: string;
  readonly fields: readonly Field<Key>[];
}

/** A file that was dropped or chosen. */
export interface SheetFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export type SheetFiles = Readonly<Record<string, readonly SheetFile[]>>;

/** A table of the result. */
export interface SheetTable {
  readonly caption: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** True where it is folded until asked for: the numbers behind a picture. */
  readonly isFolded?: boolean | undefined;
}

/** What a worksheet answers. */
export interface Outcome {
  /** The answer in one sentence. */
  readonly lead: string;
  /** Numbers with their names. */
  readonly facts: readonly (readonly [name: string, value: string])[];
  /** Drawings with what to see in them. */
  readonly pictures?: readonly { readonly svg: string; readonly caption: string }[] | undefined;
  /** Sentences that stand one below the other. */
  readonly lists?: readonly { readonly caption: string; readonly sentences: readonly string[] }[] | undefined;
  readonly tables?: readonly SheetTable[] | undefined;
  readonly findings?: readonly Finding[] | undefined;
  /** The code that computes the same; it runs, and its lines that end in `// ≈` say what comes out. */
  readonly code: string;
  /** Files to save. */
  readonly downloads?:
    | readonly { readonly name: string; readonly type: string; readonly content: string | Uint8Array }[]
    | undefined;
}

/** How a long computation talks with the page. */
export interface SheetWork {
  readonly signal: AbortSignal;
  readonly onProgress: (doneRatio: number, step: string) => void;
}

/** A file that must be there before there is an answer. */
export interface WaitedFile {
  readonly key: string;
  readonly words: string;
}

/** A file of the site itself, fetched only when its button is pressed. */
export interface SampleFile {
  /** Key of the field that takes it. */
  readonly key: string;
  /** What the button offers: `the invented island`. */
  readonly name: string;
  /** Address from the root of the site. */
  readonly url: string;
}

/** A worksheet: what it asks and how it answers. The page around it is the same for all. */
export interface Sheet<Values extends object = Record<string, Value>> {
  readonly groups: readonly FieldGroup<string>[];
  /** What stands in the fields at first, in SI units; files have no entry. */
  readonly defaults: Values;
  /** Keys of files without which there is no answer, with the sentence to show until they are there; one that is not asked for does not count. */
  readonly waitsFor?: WaitedFile | readonly WaitedFile[] | undefined;
  /** Files of the site itself that a person without any can try. */
  readonly samples?: readonly SampleFile[] | undefined;
  /** `'typing'` answers at once, `'button'` when asked to, with progress and a way to stop. */
  readonly runs: 'typing' | 'button';
  /** Which field a refused argument belongs to, where the two have different names. */
  readonly fieldOf?: Readonly<Record<string, string>> | undefined;
  /** Loads what a calculation would else fetch later, while there is a network; called when the page is there. */
  readonly prepare?: (() => Promise<unknown>) | undefined;
  /** Throws an `InputError` for what the packages refuse. */
  readonly compute: (values: Values, files: SheetFiles, work: SheetWork) => Outcome | Promise<Outcome>;
}

/** Gives a worksheet its types; the page takes any. */
export function defineSheet<Values extends object>(sheet: Sheet<Values>): Sheet {
  return sheet as unknown as Sheet;
}
