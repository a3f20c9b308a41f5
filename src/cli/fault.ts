/** Exit code of a fault of the program itself, which is no answer about a blend. EX_SOFTWARE of sysexits.h. */
export const FAULT = 70;

/**
 * What a maker is told when the program itself is at fault: one plain line, and the trace only for who asks for it.
 * error: whatever was thrown; trace: whether POURWRIGHT_TRACE is set.
 */
export function faultWords(error: unknown, trace: boolean): string {
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  const first = what.split('\n', 1)[0]!;
  const plain = `pourwright: a fault of the program, not of your files (${first}). Please report it with the command you gave; POURWRIGHT_TRACE=1 shows where.\n`;
  return trace && error instanceof Error ? `${plain}${error.stack ?? ''}\n` : plain;
}
