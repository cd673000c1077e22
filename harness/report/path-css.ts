/** The picture from above and the table of metrics. Strokes keep their width at every size. */
export const PATH_CSS = `
.handling{margin-top:24px;padding:16px 22px;border-radius:10px;border:1px solid var(--line);
background:var(--card);font-size:19px;line-height:1.4;font-weight:550}
.handling li{display:flex;flex-wrap:wrap;align-items:center;gap:4px 14px}
.handling li+li{margin-top:10px}
.handling .who{font-weight:650}
.handling .word{--tone:var(--mark-note);font-size:14px;font-weight:650;padding:3px 11px;
border-radius:99px;color:var(--ink);border:1.5px solid var(--tone);
background:color-mix(in srgb,var(--tone) 18%,var(--card))}
.is-good .word{--tone:var(--state-driving)}
.is-fair .word{--tone:var(--mark-warning)}
.is-bad .word{--tone:var(--mark-breach)}
.facts .own-line{grid-column:1/-1;max-width:95ch}
.handling+.verdict{margin-top:12px;padding:10px 22px;font-size:15px;font-weight:450}
.handling+.verdict .icon{width:22px;height:22px}
.plan{--floor-height:620px;background:var(--card);border:1px solid var(--line);border-radius:10px;
padding:14px 18px 2px}
.drive-key{display:flex;flex-wrap:wrap;gap:4px 22px;margin-bottom:10px;font-weight:600}
.drive-key li{display:flex;align-items:center;gap:8px}
.ground{position:relative;width:100%;margin:0 auto}
.floor{position:absolute;inset:0;width:100%;height:100%;overflow:hidden}
.floor path,.floor rect,.floor circle{vector-effect:non-scaling-stroke}
.floor .grid{fill:none;stroke:var(--line);stroke-width:1}
.hatch{fill:none;stroke:var(--muted);stroke-width:1.2;opacity:.5}
.patch{stroke:var(--muted);stroke-width:1}
.way{fill:none;stroke:var(--trace);stroke-width:2.2;stroke-linejoin:round;stroke-linecap:round}
.way.dashed{stroke-dasharray:8 5}
.way.dotted{stroke-dasharray:1.5 5}
.rubber{fill:none;stroke:var(--muted);stroke-width:2.6;opacity:.42;stroke-linejoin:round}
.car .body{fill:color-mix(in srgb,var(--trace) 13%,var(--card));fill-opacity:.82;
stroke:var(--trace);stroke-width:1.3;stroke-linejoin:round}
.car .glass{fill:none;stroke:var(--trace);stroke-width:1}
.grips{fill:var(--card);stroke:var(--ink);stroke-width:1}
.near{fill:var(--mark-warning);stroke:var(--mark-warning);stroke-width:1.2}
.slides{fill:var(--mark-breach);stroke:var(--mark-breach);stroke-width:1.6}
.ghost .body{fill:none;stroke-opacity:.55}
.ghost .glass{stroke-opacity:.55}
.ghost rect{fill-opacity:.3;stroke-opacity:.45}
.start{fill:var(--card);stroke:var(--trace);stroke-width:2.2}
.end{fill:var(--trace);stroke:var(--card);stroke-width:1.5}
.gate{fill:none;stroke:var(--ink);stroke-width:1.5}
.cone{fill:var(--ink)}
.mark{position:absolute;font-size:12px;line-height:1;
white-space:nowrap;color:var(--ink);text-shadow:0 0 3px var(--card),0 0 3px var(--card),
0 0 2px var(--card)}
.scale{display:flex;align-items:center;gap:8px;margin:8px auto 0;font-size:13px;
color:var(--muted)}
.scale i{flex:none;height:7px;border:1.5px solid var(--ink);border-top:0}
.wheel-key{display:flex;flex-wrap:wrap;gap:4px 18px;padding-top:8px;font-size:13px;
color:var(--muted)}
.wheel-key li{display:flex;align-items:center;gap:7px}
.wheel-icon{width:18px;height:10px}
.plan .help{padding:6px 0 10px;max-width:95ch}
.metrics td,.metrics thead th{padding-left:0}
.metrics .figure{white-space:nowrap;font-weight:600;padding-right:28px}
.metrics .meaning{color:var(--muted);font-size:14px}
.metrics tbody th{font-weight:400;white-space:nowrap}
.metrics .is-headline th{font-weight:650}
.metrics thead .swatch{display:inline-block;margin-right:8px;vertical-align:2px}
.metrics thead th{color:var(--ink);font-weight:600}
@media (max-width:640px){
.handling{padding:14px;font-size:16px}
.handling+.verdict{padding:10px 14px;font-size:14px}
.plan{--floor-height:460px;padding:12px 12px 0;margin-left:-16px;margin-right:-16px;
border-radius:0;border-left:0;border-right:0}
.mark.wide{display:none}
.metrics,.metrics tbody,.metrics thead{display:block}
.grips{stroke-width:.6}
.near,.slides{stroke-width:.8}
.car .body{stroke-width:1}
.metrics tr{display:grid;grid-template-columns:minmax(0,1fr) repeat(var(--setups),auto);
gap:2px 14px;padding:9px 0;border-top:1px solid var(--line)}
.metrics tr>*{border:0!important;padding:0!important}
.metrics tbody th{white-space:normal}
.metrics .meaning{grid-column:1/-1;font-size:13px}
.metrics thead .meaning{display:none}
.metrics thead tr{border-top:0}
}
@media print{
.handling{font-size:12pt;padding:9pt 12pt;margin-top:12pt;break-inside:avoid}
.handling li{flex-wrap:nowrap}
.handling .word,.handling .who{white-space:nowrap}
.handling .word{font-size:9.5pt}
.handling+.verdict{font-size:9.5pt;margin-top:6pt;padding:6pt 12pt}
.handling+.verdict .icon{width:14pt;height:14pt}
.plan{--floor-height:105mm;border:0;padding:0;break-inside:avoid}
.mark{font-size:8pt;text-shadow:none}
.metrics .meaning{font-size:8.5pt;width:42%}
.metrics tbody th{white-space:normal}
.metrics .figure{padding-right:12pt}
.metrics td,.metrics th{padding-top:3pt;padding-bottom:3pt}
.plan .help{display:block!important}
}
`.trim();
