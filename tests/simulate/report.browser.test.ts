import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { ReportData } from '../../harness/report/report-data.ts';
import { writeReport } from '../../harness/report/write-report.ts';
import { need } from '../needs.ts';
import { sampleReport } from '../report/sample-report.ts';
import { circleView } from './sample-path.ts';

const program = need('chromium');

const QUIET = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
];

/** A report with everything that a simulation adds. */
function simulated(drives: number): ReportData {
  const { comparison: _, ...plain } = sampleReport();
  const path = circleView(400, drives);
  const names = path.drives.map(({ name }) => name);
  const styles = path.drives.map(({ style }) => style);
  const row = (label: string, isHeadline: boolean) => ({
    label,
    values: names.map((_name, i) => (i === 0 ? '12.34 rad/(m/s²)' : null)),
    meaning: 'What this figure tells a builder, in a sentence that takes some room on the page.',
    isHeadline,
  });
  return {
    ...plain,
    handling: path.drives.map(({ name, style, hue }) => ({
      name,
      style,
      hue,
      word: 'Understeer',
      tone: 'fair' as const,
      text: 'Ploughs: its path is 2.1 times as wide as the steering asks for.',
    })),
    path,
    metrics: { names, styles, rows: [row('Understeer gradient', true), row('Energy', false)] },
    ...(drives > 1 && { overlay: names }),
  };
}

describe.skipIf(program === null)('the report of a simulation in a browser', () => {
  let browser: Browser;
  let folder = '';
  const complaints: string[] = [];

  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: program!, args: QUIET });
    folder = await mkdtemp(join(tmpdir(), 'simulated-'));
  });

  afterEach(async () => {
    for (const context of browser.contexts()) await context.close();
  });

  afterAll(async () => {
    await browser?.close();
    await rm(folder, { recursive: true });
    expect(complaints).toEqual([]);
  });

  async function show(drives: number, options: BrowserContextOptions = {}): Promise<Page> {
    const path = join(folder, 'report.html');
    await writeReport(path, simulated(drives));
    const context = await browser.newContext({
      viewport: { width: 1280, height: 1400 },
      offline: true,
      ...options,
    });
    const page = await context.newPage();
    page.on('console', (message) => complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(String(error)));
    await page.goto(pathToFileURL(path).href);
    return page;
  }

  test.each([
    [380, 1],
    [380, 3],
    [760, 2],
    [1280, 3],
  ])('at %d px with %d setups nothing sticks out and no two texts meet', async (width, drives) => {
    const page = await show(drives, { viewport: { width, height: 900 } });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
    const marks = await page.locator('.mark:visible').evaluateAll((all) =>
      all.map((each) => {
        const { left, right, top, bottom } = each.getBoundingClientRect();
        return { text: each.textContent, left, right, top, bottom };
      }),
    );
    expect(marks.length).toBeGreaterThanOrEqual(2);
    for (const a of marks) {
      expect(a.left, a.text!).toBeGreaterThanOrEqual(0);
      expect(a.right, a.text!).toBeLessThanOrEqual(width);
      for (const b of marks) {
        if (a === b) continue;
        const meet = a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
        expect(meet, `${a.text} and ${b.text}`).toBe(false);
      }
    }
  });

  test.each([380, 1280])('at %d px a circle is round', async (width) => {
    const page = await show(1, { viewport: { width, height: 900 } });
    const box = (await page.locator('.way').boundingBox())!;
    // 5.5 rad of a circle of radius 1 m span its whole width and height.
    expect(box.width / box.height).toBeCloseTo(1, 1);
    const scale = (await page.locator('.scale i').boundingBox())!.width;
    expect(box.width / scale).toBeCloseTo(2 / 0.2, 0);
  });

  test('lines keep their width on a small screen', async () => {
    const widths = [];
    for (const width of [380, 1280]) {
      const page = await show(1, { viewport: { width, height: 900 } });
      const effect = await page
        .locator('.way')
        .evaluate((way) => [getComputedStyle(way).vectorEffect, getComputedStyle(way).strokeWidth]);
      widths.push(effect.join(' '));
    }
    expect(widths).toEqual(Array(2).fill('non-scaling-stroke 2.2px'));
  });

  test('light and dark differ, paper is white and holds path, figures and every row', async () => {
    const page = await show(2, { colorScheme: 'dark' });
    const ink = () =>
      page
        .locator('.mark')
        .first()
        .evaluate((e) => getComputedStyle(e).color);
    const dark = await ink();
    await page.emulateMedia({ colorScheme: 'light' });
    expect(await ink()).not.toBe(dark);
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe(
      'rgb(255, 255, 255)',
    );
    expect(await page.locator('.floor').isVisible()).toBe(true);
    expect(await page.locator('.metrics tbody tr:visible').count()).toBe(2);
  });

  test('how it handled stands above all else; rows of a file are not spoken of', async () => {
    const page = await show(1);
    const order = await page
      .locator('main > section')
      .evaluateAll((all) =>
        all.map((section) => section.className || section.querySelector('h2')?.id),
      );
    expect(order.slice(0, 4)).toEqual(['handling', 'verdict is-held', 'above', 'metrics-title']);
    expect(await page.locator('#odds-title').count()).toBe(0);
    expect(await page.locator('.panel').count()).toBe(3);
  });
});
