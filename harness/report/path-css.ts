/** The picture from above and the table of metrics. Strokes keep their width at every size. */
export const PATH_CSS = `
.plan{--floor-height:620px;background:var(--card);border:1px solid var(--line);border-radius:10px;
padding:14px 18px 2px}
.drive-key{display:grid;gap:6px;margin-bottom:10px}
.drive-key li{display:grid;grid-template-columns:26px minmax(0,1fr);gap:10px;align-items:baseline}
.drive-key .swatch{align-self:center}
.drive-key b{font-weight:650}
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
.grips,.near,.slides{stroke:var(--ink);stroke-width:1}
.grips{fill:var(--card)}
.near{fill:var(--mark-warning)}
.slides{fill:var(--mark-breach)}
.start{fill:var(--card);stroke:var(--trace);stroke-width:2.2}
.end{fill:var(--trace);stroke:var(--card);stroke-width:1.5}
.gate{fill:none;stroke:var(--ink);stroke-width:1.5}
.cone{fill:var(--ink)}
.mark{position:absolute;transform:translate(-50%,-50%);font-size:12px;line-height:1;
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
.plan{--floor-height:460px;padding:12px 12px 0;margin-left:-16px;margin-right:-16px;
border-radius:0;border-left:0;border-right:0}
.mark.wide{display:none}
.metrics,.metrics tbody{display:block}
.metrics tr{display:grid;grid-template-columns:minmax(0,1fr) repeat(var(--setups),auto);
gap:2px 14px;padding:9px 0;border-top:1px solid var(--line)}
.metrics tr>*{border:0!important;padding:0!important}
.metrics tbody th{white-space:normal}
.metrics .meaning{grid-column:1/-1;font-size:13px}
.metrics thead .meaning{display:none}
}
@media print{
.plan{--floor-height:105mm;border:0;padding:0;break-inside:avoid}
.mark{font-size:8pt;text-shadow:none}
.metrics .meaning{font-size:8.5pt}
.plan .help{display:block!important}
}
`.trim();
