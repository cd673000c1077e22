/** The page on a screen. Colours come from the palette as custom properties. */
export const PAGE_CSS = `
*,*::before,*::after{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--page);color:var(--ink);
font:400 15px/1.5 system-ui,-apple-system,"Segoe UI",Roboto,"Noto Sans",sans-serif;
font-variant-numeric:tabular-nums;-webkit-font-smoothing:antialiased}
main,footer{max-width:1216px;margin:0 auto;padding:0 32px}
main{padding-top:40px}
main>*+*{margin-top:32px}
h1,h2,h3,p,ul,ol,dl,dd,figure{margin:0;padding:0}
ul,ol{list-style:none}
h1{font-size:30px;line-height:1.2;font-weight:650;letter-spacing:-.015em;text-wrap:balance}
h2{font-size:18px;line-height:1.3;font-weight:650;letter-spacing:-.005em;margin-bottom:12px}
h3{font-size:14px;line-height:1.4;font-weight:600}
svg{display:block;flex:none}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);
white-space:nowrap}
.maker{font-size:13px;font-weight:650;letter-spacing:.02em;margin-bottom:14px}
.maker span{color:var(--muted);font-weight:400;margin-left:.35em}
.subtitle{color:var(--muted);font-size:16px;margin-top:6px;max-width:75ch}

.verdict{--tone:var(--held);display:flex;align-items:center;gap:16px;padding:18px 22px;
margin-top:24px;border-radius:10px;background:color-mix(in srgb,var(--tone) 9%,var(--card));
border:1px solid color-mix(in srgb,var(--tone) 32%,var(--card));
font-size:19px;line-height:1.4;font-weight:550;text-wrap:pretty}
.verdict.is-broken{--tone:var(--broken)}
.verdict .icon{width:34px;height:34px}
.icon{width:16px;height:16px;fill:none;stroke:var(--muted);stroke-width:1.6;
stroke-linecap:round;stroke-linejoin:round}
.icon-held{stroke:var(--held)}
.icon-broken{stroke:var(--broken)}
.icon-held circle{fill:var(--held)}
.icon-broken circle{fill:var(--broken)}
.icon-held path,.icon-broken path{stroke:var(--card);stroke-width:2.2}

.brief{display:grid;grid-template-columns:minmax(0,1fr) minmax(280px,340px);gap:24px;
align-items:start}
.is-stacked{grid-template-columns:minmax(0,1fr)}
.is-stacked .cautions ul{columns:3 260px;column-gap:32px}
.is-stacked .cautions li{break-inside:avoid;margin:0 0 7px}
.facts:only-child,.cautions:only-child{grid-column:1/-1}
.facts dl{display:grid;grid-template-columns:repeat(auto-fill,minmax(170px,1fr));gap:14px 28px}
.facts dt{color:var(--muted);font-size:13px}
.facts dd{overflow-wrap:anywhere;font-weight:500}
.cautions{padding:16px 18px;border-radius:10px;border:1px solid var(--line);
background:var(--card);font-size:14px;line-height:1.45}
.cautions h2{font-size:14px;margin-bottom:8px}
.cautions li{padding-left:14px;position:relative}
.cautions li+li{margin-top:6px}
.cautions li::before{content:"";position:absolute;left:0;top:.6em;width:5px;height:5px;
background:var(--mark-warning);transform:rotate(45deg)}
.plain-note{color:var(--muted)}

.charts{background:var(--card);border:1px solid var(--line);border-radius:10px;
scroll-margin-top:8px}
.charts:focus-visible,button:focus-visible,summary:focus-visible{outline:2px solid var(--accent);
outline-offset:2px}
.chart-head{position:sticky;top:0;z-index:2;background:var(--card);
border-bottom:1px solid var(--line);border-radius:10px 10px 0 0;padding-top:10px}
.toolbar{display:flex;align-items:center;gap:8px 20px;padding:0 18px 6px;flex-wrap:wrap}
.window{font-weight:600;font-size:14px}
.cursor{color:var(--muted);font-size:14px;flex:1;min-width:0;white-space:nowrap;overflow:hidden;
text-overflow:ellipsis}
.buttons{display:flex;gap:4px}
button{font:inherit;color:inherit;cursor:pointer}
.buttons button{min-width:34px;height:32px;padding:0 9px;border:1px solid var(--line);
border-radius:7px;background:var(--card);font-size:15px;line-height:1}
.buttons button:hover{border-color:var(--muted)}
.buttons button[aria-disabled="true"]{color:color-mix(in srgb,var(--muted) 55%,var(--card))}
.strip{height:78px}
.panels{padding-top:4px}
.panel+.panel{border-top:1px solid var(--line)}
.panel figcaption{display:grid;grid-template-columns:300px minmax(0,1fr);align-items:baseline;
gap:2px 20px;padding:10px 18px 2px}
.unit{color:var(--muted);font-weight:400;margin-left:.25em}
.legend{display:flex;flex-wrap:wrap;gap:0 14px;font-size:13px}
.legend li{display:flex;align-items:center;gap:5px}
.legend button{display:flex;align-items:center;gap:7px;border:0;background:none;padding:3px 2px;
border-radius:4px;color:var(--muted)}
.legend button:hover .name{color:var(--ink)}
.legend button[aria-pressed="false"] .name{text-decoration:line-through}
.legend button[aria-pressed="false"] .swatch{opacity:.25}
.legend .value{font-weight:600}
.swatch{width:26px;height:8px;fill:none;stroke:var(--trace,currentColor);stroke-width:2}
.swatch.dashed{stroke-dasharray:7 4}
.swatch.dotted{stroke-dasharray:1.5 3}
.style-key{display:flex;flex-wrap:wrap;align-items:center;gap:4px 8px;font-size:13px;
padding:10px 18px 0;color:var(--muted)}
.style-key .swatch:nth-of-type(n+2){margin-left:14px}
.u-over{touch-action:pan-y;cursor:crosshair}
.u-hz .u-cursor-x{border-right:1px solid var(--ink);opacity:.55}
.u-select{background:color-mix(in srgb,var(--accent) 16%,transparent)}
.pins{position:absolute;inset:0 0 auto;height:0}

.pin{--tone:var(--mark-note);display:inline-grid;place-items:center;width:20px;height:20px;
padding:0;border:0;background:none;position:relative;color:#000;font-size:11px;line-height:1;
isolation:isolate}
.pin::before{content:"";position:absolute;inset:1px;z-index:-1;border-radius:50%;
background:color-mix(in srgb,var(--tone) 20%,var(--card));border:1.5px solid var(--tone)}
.pin.warning{--tone:var(--mark-warning)}
.pin.breach{--tone:var(--mark-breach)}
.pin.warning::before{border-radius:3px;background:var(--tone)}
.pin.breach::before{border-radius:2px;background:var(--tone);inset:2px;transform:rotate(45deg)}
.pin.note{color:var(--ink)}
.pin b{font-weight:650}
.pins .pin{position:absolute;top:2px}
.pin.many::before{border-radius:10px;transform:none}
.state-key{display:flex;flex-wrap:wrap;gap:4px 20px;padding:8px 18px 0;font-size:13px;
color:var(--muted)}
.state-key li{display:flex;align-items:center;gap:7px}
.state{display:inline-block;width:18px;height:12px;vertical-align:-1px;margin-right:8px;
border-top:3px solid var(--tone);
background:color-mix(in srgb,var(--tone) 22%,var(--card))}
.state-key .state{margin-right:0}
.state.off{--tone:var(--state-off);
background:repeating-linear-gradient(135deg,var(--tone) 0 1px,var(--card) 1px 6px)}
.state.ready{--tone:var(--state-ready)}
.state.driving{--tone:var(--state-driving)}
.state.stopping{--tone:var(--state-stopping);
background:repeating-linear-gradient(90deg,var(--tone) 0 1px,var(--card) 1px 4px)}
.state.fault{--tone:var(--state-fault);
background:repeating-linear-gradient(45deg,var(--tone) 0 1px,var(--card) 1px 3px)}
.help{padding:8px 18px 14px;font-size:13px;color:var(--muted);text-wrap:balance}
.by-finger{display:none}
@media (hover:none){.by-mouse{display:none}.by-finger{display:block}}
kbd{font:inherit;font-size:12px;padding:0 5px;border:1px solid var(--line);border-radius:4px;
background:var(--page);color:var(--ink)}

.findings li{display:grid;grid-template-columns:28px 76px 168px minmax(0,1fr);gap:4px 12px;
align-items:baseline;padding:10px 0;border-top:1px solid var(--line)}
.findings li:last-child,tbody tr:last-child>*{border-bottom:1px solid var(--line)}
.findings .pin{align-self:start}
.severity{font-weight:600}
.note .severity{font-weight:400}
.findings p{max-width:75ch}
.jump{border:0;background:none;padding:0;color:var(--accent);text-align:left;
text-decoration:underline;text-underline-offset:3px;text-decoration-thickness:1px;
border-radius:3px;white-space:nowrap}
.jump:hover{text-decoration-thickness:2px}

table{border-collapse:collapse;width:100%;text-align:left}
th,td{padding:9px 16px 9px 0;border-top:1px solid var(--line);vertical-align:baseline}
thead th,thead td{border-top:0;padding-bottom:6px;color:var(--muted);font-size:13px;
font-weight:400}
tbody th{font-weight:600}
th:last-child,td:last-child{padding-right:0}
.counts{color:var(--muted);margin:-6px 0 10px}
.limits .outcome{white-space:nowrap}
.limits .outcome span{display:inline-flex;align-items:baseline;gap:8px}
.limits .icon{align-self:center}
.limits .is-none{color:var(--muted)}
.limits .is-broken .outcome{font-weight:650;color:var(--broken)}
.limits .is-broken>*{background:color-mix(in srgb,var(--broken) 9%,transparent)}
.limits .is-broken th{box-shadow:-10px 0 0 color-mix(in srgb,var(--broken) 9%,transparent)}
.limits .is-broken .time{box-shadow:10px 0 0 color-mix(in srgb,var(--broken) 9%,transparent)}
.limits .is-broken .detail{color:var(--ink)}
.limits .title{width:34%}
.limits .detail{color:var(--muted)}
.time,.line{white-space:nowrap}
.limits .time{text-align:right}
.plain{width:auto;min-width:min(100%,420px)}
.plain .line,.plain .time{text-align:right;padding-right:24px}
.comparison{width:auto;min-width:min(100%,640px)}
.comparison td,.comparison thead th{text-align:right;padding-left:24px}
.comparison thead th{color:var(--ink);font-weight:600}
.comparison thead .swatch{display:inline-block;margin-right:8px;vertical-align:2px}
.comparison tbody th{font-weight:400}
summary{cursor:pointer;padding:6px 0;color:var(--accent);width:fit-content}
footer{margin-top:48px;padding-top:16px;padding-bottom:40px;color:var(--muted);font-size:13px}
footer p{max-width:80ch}

@media (max-width:900px){
.brief{grid-template-columns:minmax(0,1fr)}
}
@media (max-width:640px){
main,footer{padding-left:16px;padding-right:16px}
main{padding-top:24px}
main>*+*{margin-top:26px}
h1{font-size:24px}
.subtitle{font-size:15px}
.verdict{font-size:16px;padding:14px;gap:12px;align-items:flex-start}
.verdict .icon{width:26px;height:26px}
.facts dl{grid-template-columns:repeat(2,minmax(0,1fr));gap:12px 16px}
.charts{margin-left:-16px;margin-right:-16px;border-radius:0;border-left:0;border-right:0}
.chart-head{border-radius:0}
.toolbar{padding:0 12px 6px}
.toolbar{gap:6px 14px}
.window,.cursor{font-size:13px}
.buttons{flex:1 0 100%}
.buttons button{flex:1;height:36px}
.panel figcaption{display:flex;flex-wrap:wrap;justify-content:space-between;padding:8px 12px 2px}
.state-key,.help,.style-key{padding-left:12px;padding-right:12px}
.findings li{grid-template-columns:28px auto minmax(0,1fr)}
.findings p{grid-column:2/-1}
.findings .jump{text-align:right}
.limits,.limits tbody{display:block}
.limits thead{display:none}
.limits tr{display:grid;grid-template-columns:44px minmax(0,1fr) auto;gap:2px 0;padding:10px 0;
border-top:1px solid var(--line)}
.limits tr>*{border:0!important;padding:0}
.limits .title{width:auto;padding-right:12px}
.limits .detail{grid-column:2/-1;font-size:14px}
.limits .time{grid-column:2/-1;text-align:left;font-size:14px}
.limits .time:empty{display:none}
.limits tr:last-child{border-bottom:1px solid var(--line)}
.limits .is-broken{background:color-mix(in srgb,var(--broken) 9%,transparent);
margin:0 -16px;padding-left:16px;padding-right:16px}
.limits .is-broken>*,.limits .is-broken th,.limits .is-broken .time{background:none;box-shadow:none}
.comparison td,.comparison thead th{padding-left:12px}
}
@media (max-height:480px),print{.chart-head{position:static}}
`.trim();
