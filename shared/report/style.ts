/** How what stands in the margins of a printed page is set. */
export const marginText = 'font:8pt Arial,"Liberation Sans",sans-serif;color:#4a5561';

/** The report's look: ink on white, on a screen and on A4 or Letter. */
export const reportStyle = `
:root{color-scheme:only light;--ink:#141b22;--quiet:#4a5561;--rule:#cfd6dd;--strong:#8b97a4;--sunk:#f3f5f7;--half-bus:#17609f;--virtual-neutral:#ad5200;--guess:#a3231b;--holds:#0a6b3d;--fails:#a3231b;--open:#7a5a00}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;background:#fff}
body{margin:0 auto;padding:2rem 1.25rem 4rem;max-width:50rem;background:#fff;color:var(--ink);font:400 0.9375rem/1.5 "Helvetica Neue",Arial,"Liberation Sans",sans-serif;font-variant-numeric:tabular-nums lining-nums}
h1,h2,h3,p,ul,dl,dd,figure,pre{margin:0;padding:0}
p,ul,dl,pre,figure,.table{margin-block-end:.85rem}
ul{padding-inline-start:1.2rem}
li{margin-block-end:.3rem}
a{color:inherit;text-underline-offset:.15em}
code,pre{font:0.86em/1.5 ui-monospace,"SF Mono",Menlo,Consolas,"DejaVu Sans Mono","Liberation Mono",monospace;overflow-wrap:anywhere}
pre{white-space:pre-wrap;padding:.6rem .8rem;background:var(--sunk);border-inline-start:3px solid var(--strong)}
pre code span{display:inline-block;text-indent:0}
pre code{display:block;font-size:1em;text-indent:-2ch;padding-inline-start:2ch}
small{display:block;font-size:.86em;color:var(--quiet);font-weight:400}
.aside,.note,.key{color:var(--quiet)}
.note{font-size:.86rem;line-height:1.45}
.warning,.not-computed{padding:.5rem .8rem;border:1px solid var(--strong);border-inline-start-width:4px}
.warning{border-color:var(--fails)}
.hatch{position:absolute;width:0;height:0}
header .kind{color:var(--quiet);letter-spacing:.01em}
h1{font-size:1.9rem;line-height:1.2;font-weight:650;letter-spacing:-.015em;margin:.1rem 0 .8rem}
h2{font-size:1.35rem;line-height:1.25;font-weight:650;letter-spacing:-.01em;margin:2.6rem 0 .8rem;padding-block-start:.5rem;border-block-start:2px solid var(--ink)}
main{counter-reset:part}
h2::before{counter-increment:part;content:counter(part) ". "}
h3{font-size:1.05rem;line-height:1.3;font-weight:650;margin:1.5rem 0 .5rem}
header dl,.provenance{display:grid;grid-template-columns:max-content 1fr;gap:.15rem 1.2rem}
header dl>div,.provenance>div{display:contents}
dt{color:var(--quiet)}
header dl{font-size:.9rem}
.methods>div{display:grid;grid-template-columns:13rem 1fr;gap:0 1.2rem;padding:.25rem 0;border-block-start:1px solid var(--rule);break-inside:avoid}
nav ol{columns:2;column-gap:2rem;margin:0 0 .85rem;padding-inline-start:1.5rem;font-size:.9rem}
nav li{break-inside:avoid;text-wrap:balance}
nav .absent{color:var(--quiet)}
nav .absent::after{content:" (not computed)"}
.verdicts{list-style:none;padding:0;display:grid;grid-template-columns:1fr 1fr;gap:1rem}
.verdicts li{padding:.6rem .8rem .7rem;border:1px solid var(--rule);border-block-start:4px solid var(--open);break-inside:avoid}
.verdicts .holds{border-block-start-color:var(--holds)}
.verdicts .fails{border-block-start-color:var(--fails)}
.verdicts .decision{display:flex;align-items:center;gap:.3rem;font-size:1.05rem;margin-block-end:.25rem}
.verdicts b{margin-inline-start:auto}
.mark{overflow:visible;margin-inline-end:.45rem;vertical-align:0;flex:none}
.mark path,.mark circle{fill:none;stroke:currentColor;stroke-width:1.8}
.mark circle,.mark .solid{fill:currentColor;stroke:none}
.mark.halfBus{color:var(--half-bus)}
.mark.virtualNeutral{color:var(--virtual-neutral)}
.key{display:flex;flex-wrap:wrap;gap:.2rem 1.4rem;font-size:.9rem}
table{border-collapse:collapse;width:100%;font-size:.86rem;line-height:1.4}
caption,figcaption,h1,h3{padding-block-start:.15rem}
caption{text-align:start;font-weight:650;padding-block-end:.3rem;font-size:.9rem;break-after:avoid}
caption .mark{vertical-align:0}
th,td{padding:.22rem .5rem .22rem 0;vertical-align:top;text-align:end;font-weight:400}
th:first-child,.words{text-align:start}
td:not(.words){white-space:nowrap}
td small{white-space:normal}
td:last-child,thead th:last-child{padding-inline-end:0}
th+.words,td+.words{padding-inline-start:.6rem}
thead th{color:var(--quiet);vertical-align:bottom;border-block-end:1px solid var(--strong)}
tbody tr{border-block-end:1px solid var(--rule)}
.group th{font-weight:650;padding-block-start:.6rem}
.level-1 th:first-child{padding-inline-start:.9rem}
.level-2 th:first-child{padding-inline-start:1.8rem;color:var(--quiet)}
sub{font-size:.75em;line-height:0}
.dense th,.dense td{padding-block:.12rem}
.dense .group th{padding-block-start:.45rem}
.total{border-block-start:1px solid var(--strong)}
.total th,.total td{font-weight:650}
.prose th:first-child{width:45%}
.table .note{margin-block-start:.35rem}
.guess th:first-child{box-shadow:inset 3px 0 var(--guess)}
.assumed{font-style:normal;font-weight:650;color:var(--guess);border-block-end:2px solid currentColor}
.default{color:var(--quiet);font-size:.86em;border:1px solid var(--rule);border-radius:2px;padding:0 .25em}
.pictures{display:grid;grid-template-columns:1fr 1fr;gap:.4rem 1.2rem}
figcaption{font-weight:650;font-size:.9rem;margin-block-end:.25rem}
figure svg{display:block;max-width:100%;height:auto}
.bar rect{fill:currentColor;opacity:.45}
.bar path{stroke:var(--rule);fill:none}
.bar .whisker{stroke:currentColor;stroke-width:1.2}
.bar.halfBus{color:var(--half-bus)}
.bar.virtualNeutral{color:var(--virtual-neutral)}
.waveform{width:100%}
.waveform text{font-size:10.5px;fill:var(--quiet)}
.waveform .frame>rect{fill:none;stroke:var(--rule)}
.waveform .frame path{stroke:var(--rule);stroke-width:.6}
.waveform .frame .tick{text-anchor:end;font-size:9.5px}
.waveform .trace{fill:none;stroke:var(--quiet);stroke-width:.6}
.waveform .sense,.waveform .threshold{stroke:var(--half-bus)}
.waveform .sense{opacity:.4}
.waveform .virtualNeutral.sense,.waveform .virtualNeutral.threshold{stroke:var(--virtual-neutral)}
.waveform .threshold{opacity:.55;stroke-dasharray:5 3}
.waveform .virtualNeutral.threshold{opacity:.3;stroke-dasharray:none}
.waveform .compared{fill:none;stroke:var(--half-bus);stroke-width:1.8;stroke-dasharray:5 3}
.waveform .compared.virtualNeutral{stroke:var(--virtual-neutral)}
.waveform .currentB{stroke:#6f43a8}
.waveform .currentC{stroke:#0b7468}
.waveform .blanking{fill:#9aa5b0;opacity:.28}
.waveform .commutation{stroke:var(--strong);stroke-width:.8}
.waveform .true-crossing{stroke:#0a6b3d;stroke-width:1.3;stroke-dasharray:4 3}
.waveform .accepted{stroke:var(--ink);stroke-width:1;fill:var(--ink)}
.waveform .wrong{fill:var(--fails);font-weight:650;text-anchor:middle;paint-order:stroke;stroke:#fff;stroke-width:3px}
.waveform .number,.waveform .time text{text-anchor:middle}
.waveform .number{fill:var(--ink);paint-order:stroke;stroke:#fff;stroke-width:3px}
.waveform .time path{stroke:var(--strong)}
.waveform .crossed{fill:var(--ink)}
.waveform .not-crossed{fill:#fff;stroke:var(--ink);stroke-width:.8}
.waveform .vote{stroke:var(--ink);stroke-width:1.6}
.waveform .needed{stroke:var(--strong);stroke-dasharray:1.5 2}
.cautions li{margin-block-end:.5rem}
.sign-off{display:grid;grid-template-columns:1fr 1fr;gap:0 2rem;margin-block-start:1.2rem}
.sign-off p{height:3.4rem;border-block-end:1px solid var(--strong);color:var(--quiet);display:flex;align-items:flex-end;padding-block-end:.2rem;margin:0}
#again button{font:inherit;padding:.4rem .9rem;border:1px solid var(--ink);background:#fff;color:var(--ink);cursor:pointer;border-radius:3px}
#again button:focus-visible{outline:3px solid #6a3fc4;outline-offset:2px}
#again button[disabled]{color:var(--quiet);border-color:var(--rule);cursor:default}
#again .buttons{display:flex;flex-wrap:wrap;gap:.6rem}
#again .said{font-weight:650}
#again .said.same{color:var(--holds)}
#again .said.other{color:var(--fails)}
@media (max-width:44rem){.pictures,.verdicts{grid-template-columns:minmax(0,1fr)}nav ol{columns:1}.methods>div,.sign-off{grid-template-columns:minmax(0,1fr)}.table{overflow-x:auto}header dl,.provenance{grid-template-columns:minmax(0,1fr)}}
@media screen and (max-width:30rem){table{font-size:.78rem}th,td{padding-inline-end:.25rem}}
@page{margin:18mm 15mm;@bottom-left{content:"Simulated estimates: measurement on real hardware decides";${marginText}}@bottom-right{content:counter(page) " of " counter(pages);${marginText}}}
@media print{
html{font-size:10pt}
body{max-width:none;padding:0}
h2{margin-block-start:1.8rem}
h1,h2,h3,caption,thead,figcaption{break-after:avoid}
#again .buttons,.no-script{display:none}
p,li{orphans:3;widows:3}
p,li,pre,dl>div,figure,.warning,.not-computed,.key,.signing{break-inside:avoid}
.signing,.cautions li:last-child{break-before:avoid}
thead{display:table-header-group}
tr{break-inside:avoid}
.group{break-after:avoid}
tbody tr:first-child,tbody:first-of-type tr:nth-child(2){break-after:avoid}
tbody:last-of-type tr:last-child,tbody:last-of-type tr:nth-last-child(2){break-before:avoid}
.table .note,.table+.note,p+.note,.pictures+.note{break-before:avoid}
.waveform{width:84%;margin-inline:auto}
.pictures{break-inside:auto}
.whole{break-inside:avoid}
.methods>div:first-child{break-after:avoid}
.methods>div:last-child{break-before:avoid}
p:has(+:is(.table,.pictures,figure,pre,dl,ul,section)){break-after:avoid}
a{text-decoration:none}
.warning,.verdicts li,pre,.bar,.blanking{print-color-adjust:exact;-webkit-print-color-adjust:exact}
}
`;
