/** Something in a bundle that some hub would refuse or understand differently. */
export interface Finding {
  /** Short name of the rule. */
  rule: string;
  /** Line and column in the checked text, from 1. */
  line: number;
  column: number;
  /** What was found, why it is refused, and what to write instead. */
  message: string;
}
