/** How records are told apart; `columns` and `multiline` may change between two batches. */
export interface RecordShape {
  /** One character between fields. */
  delimiter: string;
  /** Number of fields in a whole record; 0 = not known yet. */
  columns: number;
  /** true = a quoted field may hold line breaks. */
  multiline: boolean;
  /** A line that begins so is passed over. */
  comment?: string;
  /** true = a last record without a line break is torn; false = it is whole (RFC 4180, 2.2). */
  breakDue: boolean;
}
