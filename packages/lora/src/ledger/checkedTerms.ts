import { checkPositive, checkRange } from '@finial/units';
import { checkedChannelUse } from '../law/channelUse.js';
import { checkedAccess } from '../law/checkedAccess.js';
import { checkedJurisdiction } from '../law/jurisdictions.js';
import type { LedgerTerms } from './LedgerState.js';

const aDay = { min: 1e-6, max: 86_400, unit: 'seconds' };

/** What a station is bound by, checked. */
export function checkedTerms(terms: LedgerTerms): LedgerTerms {
  const { channelUse, dailyBudgetSeconds } = terms;
  const jurisdiction = checkedJurisdiction(terms.jurisdiction).name;
  checkedChannelUse(channelUse);
  const access = checkedAccess(terms.access);
  if (dailyBudgetSeconds !== undefined) {
    checkPositive(dailyBudgetSeconds, 'dailyBudgetSeconds', 'seconds');
    checkRange(dailyBudgetSeconds, 'dailyBudgetSeconds', aDay);
  }
  return { jurisdiction, channelUse, access, dailyBudgetSeconds };
}
