import { InputError } from '@finial/units';
import { Option } from 'commander';

/** An option that takes a number; the unit stands in its name. */
export function numberOption(flag: string, description: string, standard?: number): Option {
  const option = new Option(`${flag} <number>`, description).argParser((text) => numberOf(text, flag));
  return standard === undefined ? option : option.default(standard);
}

/** An option that takes a number and may be given several times. */
export function numbersOption(flag: string, description: string): Option {
  return new Option(`${flag} <number>`, description)
    .argParser((text: string, before: readonly number[]) => [...before, numberOf(text, flag)])
    .default([], 'none');
}

/** The number that a text is; a point is the decimal mark, and `868.1e6` is a number too. */
export function numberOf(text: string, argument: string): number {
  const trimmed = text.trim();
  if (/^[-+]?(\d+(?:\.\d*)?|\.\d+)(e[-+]?\d+)?$/i.test(trimmed)) return Number(trimmed);
  const expected = 'a number without its unit, with a decimal point';
  throw new InputError({ code: 'not-a-finite-number', argument, received: text, expected });
}

/** The option that holds an argument: `--data-rate` for `dataRate`. */
export function flagOf(argument: string): string {
  return `--${argument.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;
}
