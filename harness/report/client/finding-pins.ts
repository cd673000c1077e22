import type uPlot from 'uplot';
import type { Finding } from '../report-data.ts';
import { clusterFindings, clusterLabel } from './finding-clusters.ts';

/** Puts a numbered mark over the strip for each finding in sight; a click shows its stretch. */
export function placePins(
  chart: uPlot,
  findings: readonly Finding[],
  onPick: (first: number, last: number) => void,
): void {
  const layer = pinLayer(chart);
  const pins = clusterFindings(chart, findings, 1).map((cluster) => {
    const { left, width, first, last, severity } = cluster;
    const pin = document.createElement('button');
    pin.type = 'button';
    pin.tabIndex = -1;
    pin.className = `pin ${severity}`;
    pin.style.left = `${left}px`;
    pin.style.width = `${width}px`;
    pin.title = findings[first]!.text + (last > first ? ` (and ${last - first} more)` : '');
    const number = document.createElement('b');
    number.textContent = clusterLabel(cluster);
    if (first !== last) pin.classList.add('many');
    pin.append(number);
    pin.addEventListener('mousedown', (event) => event.stopPropagation());
    pin.addEventListener('click', () => onPick(first, last));
    return pin;
  });
  layer.replaceChildren(...pins);
}

function pinLayer(chart: uPlot): Element {
  const present = chart.over.querySelector('.pins');
  if (present !== null) return present;
  const layer = document.createElement('div');
  layer.className = 'pins';
  layer.setAttribute('aria-hidden', 'true');
  chart.over.append(layer);
  return layer;
}
