import { execSync } from 'node:child_process';

/** Builds what the tests drive; what is up to date is left as it is. */
export default function build(): void {
  execSync('npm run -s build', { stdio: 'inherit' });
}
