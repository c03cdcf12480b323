/** Colours of the page and its pictures on light ground. */
export const lightColours = `--paper:#f7f5ef;--card:#fffdf8;--ink:#1e2a29;--soft:#56625f;--rule:#d8d3c5;
--patina:#1c6b64;--copper:#a4501f;--stop:#a3262a;--fix:#8a5a00;--note:#2b5c8a;--ok:#1c6b64;
--s0:#0b4f6c;--s1:#2f8f9d;--s2:#a9b44c;--s3:#e08b2c;--s4:#8f2d56;--ground:#ece8dc;--c0:#0b4f6c;--c1:#26798a;--c2:#5aa08f;--c3:#9dbb73;--c4:#e2c765;--c5:#df9a45;--e0:#b3520e;--e1:#f0b57a;--e3:#8fc0e0;--e4:#12608f`;

/** The same on dark ground. */
export const darkColours = `--paper:#131b1b;--card:#1b2625;--ink:#e9e6db;--soft:#a9b3af;--rule:#35433f;
--patina:#6fc4b8;--copper:#e59a67;--stop:#ff8f88;--fix:#f0be5c;--note:#8fc1ee;--ok:#6fc4b8;
--s0:#7cc4ea;--s1:#4fb3a5;--s2:#d3d472;--s3:#f0a04b;--s4:#e0709c;--ground:#223029;--c0:#a9dcf4;--c1:#6fb9c8;--c2:#4c9a8b;--c3:#5f8148;--c4:#85712f;--c5:#864f1f;--e0:#f08a3c;--e1:#9a6236;--e3:#4d7f9f;--e4:#8cc7f0`;

/** What the pictures' classes look like; needs the colours. */
export const pictureRules = `.picture{display:block;width:100%;max-width:36rem;height:auto;margin:0 auto;font-family:system-ui,sans-serif}
.picture text{fill:var(--ink);font-size:11px;paint-order:stroke;stroke:var(--card);stroke-width:3px;stroke-linejoin:round}
.picture .mark{fill:var(--soft);font-size:10px}
.grid{stroke:var(--rule);stroke-width:.7}
.bar.power{fill:var(--ink)}.bar.gain,.bar.spare{fill:var(--patina)}.bar.loss{fill:var(--copper)}.bar.short{fill:var(--stop)}
.noise{stroke:var(--soft);stroke-dasharray:2 3}.limit{stroke:var(--stop);stroke-width:1.4;stroke-dasharray:6 3}
.hill{fill:var(--ground);stroke:var(--soft);stroke-width:1}.ray{stroke:var(--copper);stroke-width:1.6}
.cover-0{fill:var(--c0)}.cover-1{fill:var(--c1)}.cover-2{fill:var(--c2)}.cover-3{fill:var(--c3)}.cover-4{fill:var(--c4)}.cover-5{fill:var(--c5)}
.unknown{fill:none;stroke:var(--rule)}
.heard-spot{stroke:var(--ink);stroke-width:1.4}.heard{fill:var(--card)}.partly{fill:var(--soft)}.unheard{fill:var(--ink);stroke:var(--card)}
.cover{fill-opacity:.72;stroke:none;fill-rule:evenodd}
.sure-0{fill:var(--c4)}.sure-1{fill:var(--c1)}.walked{fill:var(--ink);fill-opacity:.55}
.next-spot{fill:var(--card);stroke:var(--copper);stroke-width:2}.picture .next-number{font-size:11px;font-weight:700;stroke:none}
.chain-part{fill:var(--ground);stroke:var(--ink);stroke-width:1.4}.chain-line{stroke:var(--ink);stroke-width:2}
.joined,.unjoined{fill:none;stroke-width:2.4}.joined{stroke:var(--ok)}.unjoined{stroke:var(--stop)}
.silence{fill:var(--soft);fill-opacity:.22}.alarm{stroke:var(--stop);stroke-width:1.2}.alarm.onset{stroke-dasharray:3 3}.alarm.over{stroke-opacity:.45}
.picture .alarm-number{fill:var(--stop);font-size:10px;font-weight:700}
.store{position:absolute;width:0;height:0}.earlier{fill:none;stroke:var(--soft);stroke-width:.9}
.error{stroke:var(--ink);stroke-width:1}.deaf{stroke-dasharray:2 1.5;stroke-width:1.6}
.error-0{fill:var(--e0)}.error-1{fill:var(--e1)}.error-2{fill:var(--card)}.error-3{fill:var(--e3)}.error-4{fill:var(--e4)}
.ground{fill:var(--ground)}.ring{fill:none;stroke:var(--soft);stroke-width:.6;stroke-dasharray:3 4}
.level{fill:none;stroke:var(--ink);stroke-width:1.2}.rule{stroke:var(--ink);stroke-width:2}.gateway{fill:var(--copper);stroke:var(--card);stroke-width:1.6}
.spot{stroke:var(--card);stroke-width:1}
.share-0{fill:var(--s0)}.share-1{fill:var(--s1)}.share-2{fill:var(--s2)}.share-3{fill:var(--s3)}.share-4{fill:var(--s4);stroke:var(--ink);stroke-dasharray:2 1.5}
.band{fill:var(--patina);fill-opacity:.14}.lobe{fill:var(--patina);fill-opacity:.22;stroke:var(--patina);stroke-width:1.6}
.frame-line{fill:none;stroke:var(--patina);stroke-width:1.8}.frame-line.dashed{stroke:var(--copper);stroke-dasharray:5 3}
.frame{fill:var(--patina);fill-opacity:.4}.frame.strong{fill-opacity:.85}.missed{stroke:var(--copper);stroke-width:1;stroke-opacity:.55}.fit{stroke:var(--ink);stroke-width:1.6}
ul.legend{list-style:none;display:flex;flex-wrap:wrap;gap:.2rem 1rem;padding:0;margin:.5rem 0 0;font-size:.86rem;justify-content:center}
ul.legend svg{width:.9rem;height:.9rem;vertical-align:-.12rem;margin-right:.3rem}`;

const pageRules = `*{box-sizing:border-box}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.55 system-ui,sans-serif;overflow-wrap:break-word}
.page{max-width:68rem;margin:0 auto;padding:1.25rem 1rem 3rem}
h1,h2,h3{font-family:"Iowan Old Style",Palatino,"Palatino Linotype","Book Antiqua",Georgia,serif;line-height:1.2;font-weight:600}
h1{font-size:clamp(1.6rem,5vw,2.4rem);margin:.2rem 0 .4rem}
h2{font-size:1.35rem;margin:0 0 .6rem;padding-bottom:.3rem;border-bottom:3px double var(--patina)}
h3{font-size:1.05rem;margin:1rem 0 .3rem}
.crest{color:var(--patina);letter-spacing:.14em;text-transform:uppercase;font-size:.78rem;font-weight:600;margin:0}
.facts{color:var(--soft);margin:.2rem 0 0}
section{background:var(--card);border:1px solid var(--rule);border-radius:.5rem;padding:1.1rem 1.1rem 1.25rem;margin:1.1rem 0}
.pair{display:grid;gap:1.2rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,20rem),1fr))}
.verdict{border-left:.5rem solid var(--ok)}
.verdict.stop{border-left-color:var(--stop)}.verdict.fix{border-left-color:var(--fix)}
.verdict.note,.verdict.clear{border-left-color:var(--ok)}
.lead{font-size:1.15rem;margin:.2rem 0 .8rem}
ul.findings{list-style:none;margin:0;padding:0}
ul.findings li{padding:.55rem 0;border-top:1px solid var(--rule)}
.weight{display:inline-block;min-width:3.2rem;font-size:.74rem;font-weight:700;letter-spacing:.08em;text-transform:uppercase;margin-right:.35rem}
.weight.stop{color:var(--stop)}.weight.fix{color:var(--fix)}.weight.note{color:var(--note)}
.source{display:block;color:var(--soft);font-size:.84rem}
figure{margin:0}
figcaption{color:var(--soft);font-size:.9rem;margin-top:.35rem}
ul.claims li{margin:.3rem 0}
.path{display:none;scroll-margin-top:1rem}.path:target{display:block}
a{color:var(--patina)}.picture a:focus-visible circle,.picture a:hover circle{stroke:var(--copper);stroke-width:3}a:focus-visible{outline:3px solid var(--copper);outline-offset:2px}
.scroll{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-size:.92rem;font-variant-numeric:tabular-nums}
caption{text-align:left;color:var(--soft);font-size:.86rem;padding:.2rem 0}
th,td{padding:.32rem .6rem .32rem 0;border-bottom:1px solid var(--rule);text-align:right;vertical-align:top;white-space:nowrap}
th:first-child,td:first-child{text-align:left;white-space:normal}
.named th:first-child{min-width:8.5rem}
thead th{color:var(--soft);font-weight:600}
details{margin-top:.7rem}
summary{cursor:pointer;color:var(--patina);font-weight:600}
summary:focus-visible,.scroll:focus-visible{outline:3px solid var(--copper);outline-offset:2px}
.caution{border-left:.3rem solid var(--copper);padding:.1rem 0 .1rem .8rem;margin:.8rem 0}
@media print{details::details-content{content-visibility:visible;height:auto}:root{color-scheme:light}body{background:#fff}section{break-inside:avoid;border-color:#999}}`;

/**
 * The page's only style sheet. It stands in the page itself; the content security policy admits exactly this text by its
 * hash, so a test compares {@link stylesheetHash} with it.
 */
export const stylesheet: string = `
:root{color-scheme:light dark;${lightColours}}
@media (prefers-color-scheme:dark){:root{${darkColours}}}
${pageRules}
${pictureRules}
`;

/** SHA-256 of {@link stylesheet} in base64, as the content security policy wants it. */
export const stylesheetHash = 'aJw8hWfnXR2kbyqO5c43VaSFQ1R+5fAgNrEVVfZweis=';
