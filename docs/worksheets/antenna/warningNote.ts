import type { Finding } from '@finial/units';

/** What limits a method, as a note. */
export function warningNote(message: string): Finding {
  return {
    rule: 'antenna-limits',
    severity: 'note',
    message,
    source: 'limits of the method, see @finial/antenna',
  };
}
