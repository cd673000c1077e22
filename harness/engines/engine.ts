/** A JavaScript engine that can run a bundle, from inside this process or as a command. */
export interface Engine {
  /** Short name, as given to `--engine`. */
  readonly name: string;
  /** null if it can be used here; else the reason why not, and what to install. */
  available(): string | null;
  /**
   * Runs an ES5 script in a fresh heap. The script has one function beside the language:
   * `print(text)`, which writes a line.
   *
   * @returns all that was printed, one line feed after each line
   * @throws EngineError if the script throws, does not parse, or runs longer than the engine's
   * limit
   */
  run(script: string): Promise<string>;
}

/** A script failed in an engine; the message holds what the engine said. */
export class EngineError extends Error {
  constructor(engine: string, said: string) {
    super(`${engine}: ${said.trim()}`);
    this.name = 'EngineError';
  }
}
