import fc from 'fast-check';

// A property that failed is run again by its seed: FC_SEED=123 npx vitest run packages/radio
const seed = process.env['FC_SEED'];
if (seed !== undefined) fc.configureGlobal({ seed: Number(seed) });
