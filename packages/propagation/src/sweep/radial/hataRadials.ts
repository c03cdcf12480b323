import type { HataSettings } from '../../hata/model.js';
import { okumuraHata } from '../../hata/okumuraHata.js';
import type { SweepQuestion } from '../SweepJob.js';
import type { RadialModel } from './RadialGround.js';

/**
 * Okumura-Hata along radials. The formula is a straight line in the logarithm of the distance, so its loss at one kilometre and its slope
 * say it all; distances outside 1 to 20 km are carried on along that line, which only the caller may allow.
 */
export function hataRadials(question: SweepQuestion, { surroundings }: HataSettings): RadialModel {
  const { frequencyHz, receiverHeightM, gateway } = question;
  const { lossDb: atOneKilometreDb, perDecadeDb } = okumuraHata({
    frequencyHz,
    baseHeightM: Math.max(gateway.antennaHeightM, receiverHeightM),
    mobileHeightM: Math.min(gateway.antennaHeightM, receiverHeightM),
    distanceM: 1000,
    surroundings,
    outsideValidity: 'allow',
  });
  return {
    lossesAlong({ receiverCount, receiverDistanceM, lossDb }) {
      for (let receiver = 0; receiver < receiverCount; receiver += 1) {
        lossDb[receiver] =
          atOneKilometreDb + perDecadeDb * Math.log10((receiverDistanceM[receiver] as number) / 1000);
      }
    },
  };
}
