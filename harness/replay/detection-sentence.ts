import type { Detection } from './detections.ts';

/** A finding of the traction stage in a sentence or two, with what to look at. */
export function detectionSentence(detection: Detection): string {
  const { motor, kind, fromS, toS, confidencePercent } = detection;
  const place = motor === undefined || motor === 'motor' ? '' : ` ${motor.replace('_', ' ')}`;
  const lasted = `for ${(toS - fromS).toFixed(2)} s`;
  const sure = `confidence ${Math.round(confidencePercent)} %`;
  switch (kind) {
    case 'spin':
      return (
        `The${place} motor’s wheel broke loose ${lasted} (${sure}): ` +
        'more drive than the floor bears, or a shaft that slips.'
      );
    case 'free':
      return (
        `The${place} motor turns without load (${sure}): ` +
        'its drive is lost; check shaft, gears and wires.'
      );
    case 'jam':
      return `The${place} motor was held fast ${lasted} (${sure}): free the wheel or the gears.`;
    case 'frontFree':
      return `The front no longer drives while the rear does (${sure}): check the front shaft.`;
  }
}
