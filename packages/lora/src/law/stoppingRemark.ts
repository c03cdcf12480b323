import type { Demands, Remark } from './Jurisdiction.js';

/** What keeps every frame of a signal off the air, if anything does; a rule known from memory does not. */
export function stoppingRemark({ remarks }: Demands): Remark | undefined {
  return remarks.find(({ severity, citation }) => severity === 'stop' && citation.status !== 'memory');
}
