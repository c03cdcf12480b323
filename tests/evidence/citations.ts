const months = 'January|February|March|April|May|June|July|August|September|October|November|December';

/** In a comment these name what others printed; in a title they only say what kind of case it is. */
const loose: readonly RegExp[] = [
  /\b(textbook|handbook|worked (case|example)|printed table|published (table|value|figure|example))/i,
  /\bby hand\b.*\bfrom\b/i,
  /\bfrom memory\b|\bin any table\b|\btables? of (logarithms|the normal distribution)\b/i,
  /\bpublic (worksheet|page|worked)\b/i,
  /^Source: /,
  /\b(hardware|survey|lorawan)-vectors\b|\bclosed-forms\.json\b|\breference table\b|\(reference, |\bHardware reference\b/,
];

/** What the trade calls a document by: standards, laws, data sheets, books, published data and the programs that made figures. */
const documents: readonly RegExp[] = [
  /\bP\.\d{3,4}\b/,
  /\b(Rec(ommendation|\.)? )?ITU-[RT]\b/,
  /\b(IEC|ISO|DIN|VDE|CISPR|ASTM|IEEE|SAE|AS|BS)(\/(IEC|EN|TR|TS))?(\s(EN|TS|TR|ISO|Std))*[\s-](?!AS)[A-Z]?\d{2,}/,
  /\bEN(\s(ISO|IEC))?\s\d{3,}/,
  /\b(ETSI|ICNIRP|WMO|ICAO|ASCE|ASHRAE|IAPWS|IACS|NGA|OGC|EPSG|USGS|NOAA|BIPM|CODATA|CEPT|ICSM|UCAR)\b/,
  /\b(ERC|ECC)\/(REC|DEC)|\bREC(ommendation)? 70-03/,
  /\b47 CFR\b|\bOET\b|\bKDB\b|\bFCC (rule|part|limit)/,
  /\bRP-?0?0[12]\b|\bMAC stack S\w+\b|\bRP2-1|\bTS0?0?1-\d|\bTS001\b|\bTR-?009\b/,
  /\bRFC\s?\d{3,}/,
  /\bNIST\b|\bStRD\b|\bNTIA\b|\bNBS\b/,
  /\bNEC-?2\b/,
  /\bOEIS\b|\bA\d{6}\b|\bAMS 55\b|\bCOST 231\b|\bTelecom Glossary\b|\bGeodSolve\b/,
  /\bagainst the reference\b|\b(rows|values) of the reference\b/,
  /\bMIL-(STD|DTL|HDBK|C|PRF)/,
  /\bdata ?sheet|\bSX12\d\d\b|\bapplication notes?\b/i,
  /\bTouchstone( File)?( Format)?( Specification)?,? (rev|version|[12]\.)/i,
  /\bTIFF 6|\bGeoTIFF (1\.|specification|OGC)/i,
  /\bWGS 84\b.*\b(table|definition)\b/i,
  /\b\d(st|nd|rd|th) ed(ition|\.)/i,
  /\breference implementation|\bvalidation (workbook|examples|set|profiles)/i,
  /\bR \d\.\d(\.\d)?\b|\b(against|language) R\b|\(R\)|\bSciPy\b|\bscipy\.|\bNumPy\b|\bmpmath\b|\bgeographiclib|\bGeographicLib|\bbc\b.*digits|\b\d\d digits\b/,
];

/** An author with a year: `Hata (1980)`, `Brown, Cai and DasGupta 2001`, `Vogler et al., 1982`. */
const author = new RegExp(
  `\\b(?!(?:${months})\\b)[A-Z][a-zà-ÿ'’]+(?: et al\\.?| (?:and|&) [A-Z][A-Za-zà-ÿ]+)?,? \\(?(?:19|20)\\d\\d\\)?(?![-\\d])`,
);

/** The sentence of a text that names a document, an author with a year, or data that others published; `undefined` where none does. */
export function citationIn(text: string): string | undefined {
  return citation(text, [...documents, author, ...loose]);
}

/** The same for a title. One that only names a Recommendation, as `the sweep of P.526 does`, says what is computed, not by whom. */
export function citationInTitle(text: string): string | undefined {
  const isAgainst = /\bagainst\b|\b(table|section|equation|figure)\b|\(|\bRec\b|\bcase\b/.test(text);
  return citation(isAgainst ? text : text.replace(/\bP\.\d+/g, ''), [...documents, author]);
}

function citation(text: string, patterns: readonly RegExp[]): string | undefined {
  const flat = text.replace(/\s+/g, ' ').trim();
  const places = patterns.flatMap((pattern) => pattern.exec(flat)?.index ?? []);
  if (places.length === 0) return undefined;
  return sentencesAround(flat, Math.min(...places), Math.max(...places));
}

/** A text cut to whole words. */
export function shortened(text: string, length: number): string {
  if (text.length <= length) return text;
  return `${text.slice(0, length - 1).replace(/\s+\S*$/, '')} …`;
}

/** From the sentence that holds the first place to the one that holds the last. Full stops of abbreviations end no sentence. */
function sentencesAround(text: string, first: number, last: number): string {
  const ends = [
    ...text.matchAll(/(?<!\b(?:[A-Z]|Rec|al|ed|No|cf|Fig|Sec|sec|eq|e\.g|i\.e))[.;] (?=[A-Z])/g),
  ].map(({ index }) => index + 1);
  const start = ends.filter((end) => end <= first).at(-1) ?? 0;
  const end = ends.find((each) => each > last) ?? text.length;
  return text.slice(start, end).trim();
}
