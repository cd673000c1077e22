import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { ReportData } from '../../harness/report/report-data.ts';
import { writeReport } from '../../harness/report/write-report.ts';
import { need } from '../needs.ts';
import { GAP_S, sampleReport } from './sample-report.ts';

const program = need('chromium');

const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
];

const FINDING = 'No valid input for 1 s.';

describe.skipIf(program === null)('the report in a browser without a network', () => {
  let browser: Browser;
  let folder = '';
  let open: Opened[] = [];
  /** Shown again where a test wants nothing of its own: to open a new one takes longer. */
  let usual: Opened | undefined;

  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: program!, args: QUIET });
    folder = await mkdtemp(join(tmpdir(), 'report-'));
  });

  afterEach(async () => {
    const used = open;
    open = [];
    for (const one of used) if (one !== usual) await one.page.context().close();
    for (const { complaints, requests } of used) {
      expect(complaints.splice(0)).toEqual([]);
      expect(requests.splice(0).filter((url) => !url.startsWith('file:'))).toEqual([]);
    }
  });

  afterAll(async () => {
    await browser?.close();
    await rm(folder, { recursive: true });
  });

  async function show(
    data: ReportData = sampleReport(FINDING),
    options?: BrowserContextOptions,
  ): Promise<Page> {
    const path = join(folder, 'report.html');
    await writeReport(path, data);
    usual ??= await openPage();
    const opened = options ? await openPage(options) : usual;
    if (!open.includes(opened)) open.push(opened);
    const { page } = opened;
    await page.mouse.move(0, 0);
    await page.goto(pathToFileURL(path).href);
    if (options?.javaScriptEnabled !== false) await settle(page);
    return page;
  }

  async function openPage(options: BrowserContextOptions = {}): Promise<Opened> {
    const context = await browser.newContext({
      viewport: { width: 1280, height: 1400 },
      offline: true,
      reducedMotion: 'reduce',
      ...options,
    });
    return watch(await context.newPage());
  }

  test('every panel and the strip are drawn', async () => {
    const page = await show();
    expect(await page.locator('.panel').count()).toBe(3);
    const inked = await page.evaluate(() =>
      [...document.querySelectorAll('canvas')].map((canvas) => {
        const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext('2d')!;
        copy.drawImage(canvas, 0, 0);
        const { data } = copy.getImageData(0, 0, canvas.width, canvas.height);
        return data.some((value) => value !== 0);
      }),
    );
    expect(inked).toEqual([true, true, true, true]);
  });

  test('a drag over one panel zooms all charts, a double-click shows the whole run', async () => {
    const page = await show();
    const before = await pictures(page);
    expect(await windows(page)).toEqual(Array(3).fill('0.000 20.000'));

    await dragOver(page, 1, 0.25, 0.5);
    const zoomed = await windows(page);
    expect(new Set(zoomed).size).toBe(1);
    const [from, to] = zoomed[0]!.split(' ').map(Number);
    expect(from).toBeCloseTo(5, 1);
    expect(to).toBeCloseTo(10, 1);
    const after = await pictures(page);
    after.forEach((picture, i) => {
      expect(picture).not.toBe(before[i]);
    });
    expect(await page.locator('#window').textContent()).toBe('5.0 s to 10.0 s');

    await page.locator('.panel .u-over').nth(2).dblclick();
    await settle(page);
    expect(await windows(page)).toEqual(Array(3).fill('0.000 20.000'));
  });

  test('the cursor stands at one time in every chart, and each trace gives its value', async () => {
    const page = await show();
    await hover(page, 0, 0.25);
    const lines = await page.evaluate(() =>
      [...document.querySelectorAll('.u-cursor-x')].map((line) => line.getBoundingClientRect().x),
    );
    expect(lines).toHaveLength(4);
    expect(new Set(lines).size).toBe(1);
    expect(await page.locator('#cursor').textContent()).toContain('5.00 s');
    const values = await page.locator('.legend .value').allTextContents();
    expect(values).toEqual(['\u2212863', '\u2212500', '300', '750.0', '7.4']);
  });

  test('the cursor in a gap says that there is no sample', async () => {
    const page = await show();
    await hover(page, 1, 0.5);
    expect(await page.locator('.legend .value').nth(1).textContent()).toBe('\u2013');
    expect(await page.locator('.legend .value').nth(2).textContent()).toBe('500');
  });

  test('a gap is a gap: no line is drawn across it', async () => {
    const page = await show();
    const middle = (GAP_S[0] + GAP_S[1]) / 2 / 20;
    expect(await hasTrace(page, 0, middle, 1)).toBe(false);
    expect(await hasTrace(page, 0, 0.3, 1)).toBe(true);

    const whole = sampleReport(FINDING);
    whole.panels[0]!.traces[1]!.values.fill(-500);
    const unbroken = await show(whole);
    expect(await hasTrace(unbroken, 0, middle, 1)).toBe(true);
  });

  test('a click on the time of a finding shows its stretch and says what it is', async () => {
    const page = await show();
    await page.locator('.findings .jump').first().click();
    await settle(page);
    expect(await windows(page)).toEqual(Array(3).fill('6.000 11.000'));
    expect(await page.locator('#cursor').textContent()).toBe(`8.00 s, stopping. ${FINDING}`);
    expect(await page.locator('#charts').evaluate((e) => e === document.activeElement)).toBe(true);
  });

  test('a click on a mark above the charts, or on the time of a limit, does the same', async () => {
    const page = await show();
    await page.locator('.pins .pin.breach').click();
    await settle(page);
    expect((await windows(page))[2]).toBe('13.000 17.000');
    await page.locator('.limits .jump').click();
    await settle(page);
    expect((await windows(page))[2]).toBe('1.250 5.250');
  });

  test('marks that would overlap are gathered into one that shows them all', async () => {
    const data = sampleReport(FINDING);
    data.findings = [3, 3.02, 3.05].map((atS) => ({ atS, severity: 'note', text: 'Near.' }));
    const page = await show(data);
    expect(await page.locator('.pins .pin').allTextContents()).toEqual(['1\u20133']);
    await page.locator('.pins .pin').click();
    await settle(page);
    expect(await page.locator('.pins .pin').count()).toBeGreaterThanOrEqual(1);
    expect((await windows(page))[0]).toBe('1.000 5.050');
  });

  test('keys zoom, move and reset; the values at the cursor are spoken', async () => {
    const page = await show();
    await page.locator('#charts').focus();
    await page.keyboard.press('+');
    await settle(page);
    expect(await windows(page)).toEqual(Array(3).fill('5.000 15.000'));
    await page.keyboard.press('Shift+ArrowRight');
    await settle(page);
    expect((await windows(page))[0]).toBe('7.000 17.000');
    await page.keyboard.press('ArrowRight');
    await settle(page);
    expect(await page.locator('#spoken').textContent()).toMatch(/^12\.00 s, fault; .*left 580 mA/);
    await page.keyboard.press('-');
    await page.keyboard.press('0');
    await settle(page);
    expect((await windows(page))[0]).toBe('0.000 20.000');
  });

  test('each button of the toolbar works and has a name', async () => {
    const page = await show();
    const press = async (name: string) => {
      await page.getByRole('button', { name, exact: true }).click();
      await settle(page);
      return (await windows(page))[0];
    };
    expect(await press('Zoom in')).toBe('5.000 15.000');
    expect(await press('Later')).toBe('9.000 19.000');
    expect(await press('Earlier')).toBe('5.000 15.000');
    expect(await press('Zoom out')).toBe('0.000 20.000');
    await press('Zoom in');
    expect(await press('Whole run')).toBe('0.000 20.000');
  });

  test('a trace can be hidden and shown again', async () => {
    const page = await show();
    const steering = page.getByRole('button', { name: 'steering' });
    expect(await hasTrace(page, 0, 0.3, 1)).toBe(true);
    await steering.click();
    await settle(page);
    expect(await steering.getAttribute('aria-pressed')).toBe('false');
    expect(await hasTrace(page, 0, 0.3, 1)).toBe(false);
    await steering.click();
    await settle(page);
    expect(await hasTrace(page, 0, 0.3, 1)).toBe(true);
  });

  test('light and dark follow the reader, also while the page is open', async () => {
    const page = await show(undefined, { colorScheme: 'dark' });
    const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    expect(await ground()).toBe('rgb(17, 20, 22)');
    const dark = await pictures(page);
    await page.emulateMedia({ colorScheme: 'light' });
    await settle(page);
    expect(await ground()).toBe('rgb(244, 245, 243)');
    (await pictures(page)).forEach((picture, i) => {
      expect(picture).not.toBe(dark[i]);
    });
  });

  test.each([380, 760, 1280])('at %d px nothing sticks out sideways', async (width) => {
    const page = await show(undefined, { viewport: { width, height: 800 } });
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBe(width);
    const charts = await page.locator('.panel .uplot').first().boundingBox();
    expect(charts!.x + charts!.width).toBeLessThanOrEqual(width);
  });

  test('a title that looks like a script is only a title', async () => {
    const title =
      '</script><script>window.taken = 1</script><img src=x onerror="window.taken = 1">';
    const page = await show(sampleReport(title));
    expect(await page.evaluate(() => 'taken' in window)).toBe(false);
    expect(await page.title()).toBe(title);
    expect(await page.locator('h1').textContent()).toBe(title);
    expect(await page.locator('.panel').count()).toBe(3);
  });

  test('paper gets sharp light charts, everything in the tables and nothing to press', async () => {
    const page = await show(undefined, { colorScheme: 'dark' });
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    await settle(page);
    const widths = await page
      .locator('.sheet canvas')
      .evaluateAll((all) => all.map((canvas) => (canvas as HTMLCanvasElement).width));
    expect(widths).toEqual(Array(4).fill(688 * 3));
    expect(await page.locator('.buttons').isVisible()).toBe(false);
    expect(await page.locator('.uplot').first().isVisible()).toBe(false);
    expect(await page.locator('.limits tbody tr').count()).toBe(3);
    const ground = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    expect(ground).toBe('rgb(255, 255, 255)');
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    expect(await page.locator('.sheet').count()).toBe(0);
    expect(await page.evaluate(() => document.body.className)).toBe('');
  });

  test('prints on A4', async () => {
    const page = await show();
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
    const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)];
    expect(boxes.length).toBeGreaterThanOrEqual(1);
    for (const [, width, height] of boxes) {
      expect(Number(width)).toBeCloseTo((210 / 25.4) * 72, 0);
      expect(Number(height)).toBeCloseTo((297 / 25.4) * 72, 0);
    }
  });

  test('without scripts a note stands for the charts and the tables are there', async () => {
    const page = await show(undefined, { javaScriptEnabled: false });
    expect(await page.locator('noscript p').isVisible()).toBe(true);
    expect(await page.locator('.charts').isVisible()).toBe(false);
    expect(await page.locator('.limits tbody tr').first().isVisible()).toBe(true);
    expect(await page.locator('.findings li').first().isVisible()).toBe(true);
  });

  test('a run without rows, and one of a single row, open without complaint', async () => {
    const empty = sampleReport();
    await show({ ...empty, timeS: [], panels: [], findings: [] });
    const one = { ...empty, timeS: [5], findings: [], states: [] };
    const panels = [{ title: 'One', unit: '', traces: [{ label: 'a', values: [3] }] }];
    const page = await show({ ...one, panels });
    expect(await page.locator('.panel canvas').count()).toBe(1);
  });
});

interface Opened {
  page: Page;
  complaints: string[];
  requests: string[];
}

/** Collects what a page must not do: complain, fail, or ask for anything but its own file. */
function watch(page: Page): Opened {
  const opened: Opened = { page, complaints: [], requests: [] };
  page.on('console', (message) => {
    opened.complaints.push(`${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => {
    opened.complaints.push(String(error));
  });
  page.on('dialog', (dialog) => {
    opened.complaints.push(`dialog: ${dialog.message()}`);
  });
  page.on('request', (request) => {
    opened.requests.push(request.url());
  });
  return opened;
}

/** Two frames: charts draw in the one after a change. */
async function settle(page: Page): Promise<void> {
  await page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        requestAnimationFrame(() => requestAnimationFrame(() => resolve()));
      }),
  );
}

/** What each panel says it shows, from its own scale: "from to". */
function windows(page: Page): Promise<string[]> {
  return page
    .locator('.panel')
    .evaluateAll((all) =>
      all.map((panel) =>
        [panel.getAttribute('data-from-s'), panel.getAttribute('data-to-s')].join(' '),
      ),
    );
}

function pictures(page: Page): Promise<string[]> {
  return page
    .locator('canvas')
    .evaluateAll((all) => all.map((canvas) => (canvas as HTMLCanvasElement).toDataURL()));
}

async function plotBox(page: Page, panel: number) {
  const plot = page.locator('.panel .u-over').nth(panel);
  await plot.scrollIntoViewIfNeeded();
  return (await plot.boundingBox())!;
}

async function hover(page: Page, panel: number, share: number): Promise<void> {
  const box = await plotBox(page, panel);
  await page.mouse.move(box.x + box.width * share, box.y + box.height / 2);
  await settle(page);
}

async function dragOver(page: Page, panel: number, from: number, to: number): Promise<void> {
  const box = await plotBox(page, panel);
  const y = box.y + box.height / 2;
  await page.mouse.move(box.x + box.width * from, y);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * ((from + to) / 2), y);
  await page.mouse.move(box.x + box.width * to, y);
  await page.mouse.up();
  await page.mouse.move(0, 0);
  await settle(page);
}

/** Whether a column of pixels about that share of a panel's plot holds the colour of a trace. */
function hasTrace(page: Page, panel: number, share: number, hue: number): Promise<boolean> {
  return page
    .locator('.panel')
    .nth(panel)
    .evaluate(
      (figure, { share, hue }) => {
        const canvas = figure.querySelector('canvas')!;
        const plot = figure.querySelector<HTMLElement>('.u-over')!;
        const colour = getComputedStyle(figure).getPropertyValue(`--series-${hue}`).trim();
        const wanted = [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16));
        const x = Math.round(plot.offsetLeft + plot.clientWidth * share) - 10;
        const copy = new OffscreenCanvas(20, canvas.height).getContext('2d')!;
        copy.drawImage(canvas, -x, 0);
        const { data } = copy.getImageData(0, 0, 20, canvas.height);
        for (let i = 0; i < data.length; i += 4) {
          if (wanted.every((value, c) => Math.abs(value - data[i + c]!) < 12)) return true;
        }
        return false;
      },
      { share, hue },
    );
}
