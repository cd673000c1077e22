/** One measured number, beside its goal. */
export interface Figure {
  /** What was measured. */
  what: string;
  /** Where: an engine, a variant of the bundle, a part. */
  where: string;
  /** The number; null = it could not be measured here, see `note`. */
  value: number | null;
  unit: string;
  /** Greatest value that meets the goal; absent = no goal. */
  most?: number;
  /** Least value that meets the goal; absent = no goal. */
  least?: number;
  /** How it was measured, or why not. */
  note?: string;
}

/** A group of figures under one name. */
export interface FigureSource {
  /** Name, as given to `--only`. */
  name: string;
  measure(): Promise<Figure[]>;
}

/** true if the figure was measured and misses its goal. */
export function missesGoal({ value, most, least }: Figure): boolean {
  if (value === null) return false;
  return (most !== undefined && value > most) || (least !== undefined && value < least);
}
