/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
import type { ChartData } from '../chart-data.ts';
import { startCharts } from './start-charts.ts';

const embedded = document.getElementById('chart-data')?.textContent;
const charts = document.getElementById('charts');
if (embedded && charts !== null) startCharts(charts, JSON.parse(embedded) as ChartData);
