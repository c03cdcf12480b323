import { checkOneOf } from '@finial/units';
import type { Access } from '../Transmission.js';

/** The way to share a channel if it is one; nothing where nothing was said. */
export function checkedAccess(access: unknown): Access | undefined {
  return access === undefined
    ? undefined
    : checkOneOf(access, 'access', ['duty-cycle', 'listen-before-talk']);
}
