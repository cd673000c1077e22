/** The page on A4: all of it, nothing to press, no chart and no row cut in two. */
export const PRINT_CSS = `
@page{size:A4;margin:14mm 14mm 17mm;
@bottom-right{content:counter(page) " / " counter(pages);font:9pt system-ui,sans-serif;
color:#586169}}
@media print{
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
html,body{background:#fff}
body{font-size:9.5pt;line-height:1.4}
main,footer{max-width:none;padding:0;margin:0}
main>*+*{margin-top:16pt}
h1{font-size:18pt}
h2{font-size:12pt;margin-bottom:6pt;break-after:avoid}
h3{font-size:9.5pt}
.maker{font-size:9pt;margin-bottom:6pt}
.subtitle{font-size:10.5pt}
.verdict{font-size:12pt;padding:9pt 12pt;margin-top:12pt;break-inside:avoid}
.verdict .icon{width:22pt;height:22pt}
.brief{grid-template-columns:minmax(0,1fr) 62mm;gap:14pt}
.brief.is-stacked{grid-template-columns:minmax(0,1fr)}
.is-stacked .cautions ul{columns:2;column-gap:18pt}
.is-stacked .facts dl{grid-template-columns:repeat(4,minmax(0,1fr))}
.facts dl{grid-template-columns:repeat(3,minmax(0,1fr));gap:7pt 12pt}
.facts dt,.cautions,.legend,.unit,.style-key,.state-key{font-size:8.5pt}
.cautions{padding:8pt 10pt;break-inside:avoid}
.buttons,.cursor,.help,.unseen,.states,.legend .value{display:none!important}
.charts{border:0;border-radius:0;margin:0}
.chart-head{position:static;border:0;padding:0;break-inside:avoid;break-after:avoid}
.toolbar,.panel figcaption,.state-key,.style-key{padding-left:0;padding-right:0}
.panel{break-inside:avoid}
.panel+.panel{border-top:0}
.panel figcaption{padding-top:5pt;grid-template-columns:58mm minmax(0,1fr)}
.legend{gap:0 12pt}
.legend button{color:var(--ink);padding:0}
.strip{height:auto}
.sheet{line-height:0}
.sheet canvas{width:100%;height:auto}
.has-sheets .uplot{display:none}
.findings li{break-inside:avoid;grid-template-columns:22pt 52pt 104pt minmax(0,1fr);padding:5pt 0}
tr{break-inside:avoid}
thead{display:table-header-group}
th,td{padding-top:4.5pt;padding-bottom:4.5pt}
thead th{font-size:8.5pt}
.limits .detail{font-size:9pt}
.jump{color:var(--ink);text-decoration:none}
details>summary{list-style:none;color:var(--muted)}
details[open]>summary{display:none}
footer{margin-top:16pt;padding:0;font-size:8pt}
}
@media screen{.sheet{display:none}}
`.trim();
