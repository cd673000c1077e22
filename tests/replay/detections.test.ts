import { describe, expect, it } from 'vitest';
import { detectionSentence } from '../../harness/replay/detection-sentence.ts';
import { createDetections } from '../../harness/replay/detections.ts';
import { Out, outputWidth } from '../../harness/replay/row-layout.ts';
import { createTimeline } from '../../harness/replay/timeline.ts';
import { Found, Layout, State } from '../../lib/index.ts';

/** A tick's row of outputs with these findings, each with its confidence. */
function rowOf(findings: [number, number][]): Int32Array {
  const row = new Int32Array(outputWidth(2));
  row[Out.STATE] = State.DRIVING;
  for (const [bit, confidence] of findings) {
    row[Out.FOUND] = row[Out.FOUND]! | bit;
    const kind = bit < Found.FREE ? Out.SPIN : bit < Found.JAM ? Out.FREE : Out.JAM;
    const at = bit === Found.FRONT_FREE ? Out.FREE : kind;
    row[at] = Math.max(row[at]!, confidence);
  }
  return row;
}

/** Feeds a list of [from s, to s, found, confidence] at 100 Hz over so many seconds. */
function gather(spans: [number, number, number, number][], endS: number) {
  const gatherer = createDetections(Layout.PAIR);
  for (let tick = 0; tick <= endS * 100; tick++) {
    const now = spans.filter(([from, to]) => tick >= from * 100 && tick <= to * 100);
    const row = rowOf(now.map(([, , bit, confidence]) => [bit, confidence]));
    gatherer.observe(tick / 100, row, 0);
  }
  return gatherer.finish();
}

describe('what the core found', () => {
  it('has a kind, a motor, a stretch and the greatest confidence in its kind', () => {
    const { detections, dropped } = gather(
      [
        [1, 1.5, Found.SPIN << 1, 700],
        [1.2, 1.3, Found.SPIN << 1, 900],
        [2, 2.2, Found.JAM, 800],
        [2.1, 3, Found.FREE << 1, 650],
        [2.5, 3, Found.FRONT_FREE, 600],
      ],
      3,
    );
    expect(detections).toEqual([
      { kind: 'spin', motor: 'right', fromS: 1, toS: 1.5, confidencePercent: 90 },
      { kind: 'jam', motor: 'left', fromS: 2, toS: 2.2, confidencePercent: 80 },
      { kind: 'free', motor: 'right', fromS: 2.1, toS: 3, confidencePercent: 65 },
      { kind: 'frontFree', fromS: 2.5, toS: 3, confidencePercent: 65 },
    ]);
    expect(dropped).toBe(0);
  });

  it('is one finding where it comes back within 0.3 s, and two where it does not', () => {
    const spin = Found.SPIN;
    const short = gather(
      [
        [1, 1.1, spin, 500],
        [1.4, 1.5, spin, 500],
      ],
      2,
    );
    expect(short.detections.map(({ fromS, toS }) => [fromS, toS])).toEqual([[1, 1.5]]);
    const long = gather(
      [
        [1, 1.1, spin, 500],
        [1.42, 1.5, spin, 500],
      ],
      2,
    );
    expect(long.detections.map(({ fromS }) => fromS)).toEqual([1, 1.42]);
  });

  it('is counted, not kept, past a hundred of a kind', () => {
    const many = Array.from({ length: 105 }, (_, i): [number, number, number, number] => [
      i,
      i + 0.1,
      Found.SPIN,
      500,
    ]);
    const { detections, dropped } = gather(many, 105);
    expect(detections).toHaveLength(100);
    expect(dropped).toBe(5);
  });

  it('stands on the timeline as a sentence with its stretch', () => {
    const timeline = createTimeline(Layout.PAIR);
    for (let tick = 0; tick < 200; tick++) {
      const row = rowOf(tick >= 50 && tick <= 92 ? [[Found.SPIN, 870]] : []);
      timeline.observe(tick / 100, row, 0, 0);
    }
    const { findings, detections } = timeline.finish();
    expect(detections).toHaveLength(1);
    expect(findings).toContainEqual({
      atS: 0.5,
      toS: 0.92,
      severity: 'warning',
      text:
        'The left motor’s wheel broke loose for 0.42 s (confidence 87 %): ' +
        'more drive than the floor bears, or a shaft that slips.',
    });
  });
});

describe('a sentence', () => {
  it('says of each kind what to look at', () => {
    const span = { fromS: 1, toS: 2, confidencePercent: 80 };
    expect(detectionSentence({ ...span, kind: 'free', motor: 'rear_left' })).toBe(
      'The rear left motor turns without load (confidence 80 %): its drive is lost; ' +
        'check shaft, gears and wires.',
    );
    expect(detectionSentence({ ...span, kind: 'jam', motor: 'motor' })).toMatch(
      /^The motor was held fast for 1.00 s/,
    );
    expect(detectionSentence({ ...span, kind: 'frontFree' })).toMatch(/check the front shaft/);
  });
});
