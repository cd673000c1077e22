import { drawPath } from './draw-path.ts';
import { formatNumber } from './format.ts';
import { escapeHtml } from './html.ts';
import { swatch } from './icons.ts';
import { type PathFrame, pathFrame } from './path-frame.ts';
import { pathLabels } from './path-labels.ts';
import { type PathMoments, pathMoments } from './path-moments.ts';
import type { PathView } from './path-view.ts';

/** The drive seen from above; nothing where there is none. */
export function pathSection(view: PathView | undefined): string {
  if (view === undefined) return '';
  const frame = pathFrame(view);
  const moments = pathMoments(view, frame);
  const most = `max-width:calc(var(--floor-height)*${(frame.width / frame.height).toFixed(3)})`;
  return `<section class="above" aria-labelledby="above-title">
<h2 id="above-title">Seen from above</h2>
<div class="plan">
${driveKey(view)}<div class="ground" style="aspect-ratio:${frame.width}/${frame.height};${most}">
${drawPath(view, frame, moments)}
${pathLabels(view, frame, moments)}
</div>
${scaleBar(frame, most)}
${wheelKey(view)}
<p class="help">${escapeHtml(caption(view, frame, moments))}</p>
</div>
</section>`;
}

/** Which line is which setup; one alone needs no key. */
function driveKey({ drives }: PathView): string {
  if (drives.length < 2) return '';
  const items = drives.map(
    ({ name, style, hue }) => `<li>${swatch(style, hue)}${escapeHtml(name)}</li>`,
  );
  return `<ul class="drive-key">${items.join('')}</ul>\n`;
}

/** As long as one square of the grid; in a box as wide as the picture. */
function scaleBar({ grid, scale, width }: PathFrame, most: string): string {
  const share = ((100 * grid * scale) / width).toFixed(2);
  const text = grid < 1 ? `${formatNumber(grid * 100, 0)} cm` : `${formatNumber(grid, 0)} m`;
  return `<div class="scale" style="${most}"><i style="width:${share}%"></i>${text}</div>`;
}

function wheelKey({ vehicle, patches, gates }: PathView): string {
  const part = vehicle.isTracked ? 'Track' : 'Wheel';
  const box = (name: string) =>
    `<svg class="wheel-icon" viewBox="0 0 18 10" aria-hidden="true"><rect class="${name}" \
x="1" y="1.5" width="16" height="7"/></svg>`;
  const line = (name: string) =>
    `<svg class="wheel-icon" viewBox="0 0 18 10" aria-hidden="true">\
<path class="${name}" d="M1 5H17"/></svg>`;
  const items = [
    `${box('grips')}${part} grips`,
    `${box('near')}near its limit`,
    `${box('slides')}slides`,
    `${line('rubber')}mark it leaves`,
    ...(gates.length > 0 ? [`${line('gate')}edge of the course`] : []),
    ...new Set(patches.map(({ name }) => `${patchIcon()}${escapeHtml(name)}`)),
  ];
  return `<ul class="wheel-key">${items.map((item) => `<li>${item}</li>`).join('')}</ul>`;
}

function patchIcon(): string {
  return `<svg class="wheel-icon" viewBox="0 0 18 10" aria-hidden="true"><rect class="patch" \
x="0" y="0" width="18" height="10" fill="url(#hatch)"/></svg>`;
}

function caption({ notes }: PathView, { enlarged }: PathFrame, { stepS }: PathMoments): string {
  const size = enlarged === 1 ? 'true to scale' : `drawn ${enlarged} times its size`;
  const sentences = [
    `Vehicle every ${stepS} s, ${size}; ring = start, dot = end; the line is the way of its ` +
      'centre of gravity, left is up.',
    ...notes,
  ];
  return sentences.join(' ');
}
