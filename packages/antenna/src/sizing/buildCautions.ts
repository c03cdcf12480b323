import type { Finding } from '@finial/units';

/** What anybody who builds and puts up an antenna must be told, whatever its size. */
export function buildCautions(): Finding[] {
  const source = 'common practice, no source';
  return [
    {
      rule: 'antenna-work-safety',
      severity: 'note',
      message:
        'Keep mast and antenna, also while they fall, clear of overhead lines; do not work on a roof in wind, rain or thunder, nor without ' +
        'fall protection. Earthing, lightning protection and mains follow the local code and are work for licensed people.',
      source,
    },
    {
      rule: 'antenna-rod-ends',
      severity: 'note',
      message:
        'Ends of rods hurt eyes: cap or bend them, and wear eye protection while cutting. Switch the transmitter off before touching the antenna.',
      source,
    },
  ];
}
