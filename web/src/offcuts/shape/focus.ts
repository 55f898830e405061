// Where typing goes on after a row was added.
import { useEffect, useRef } from 'preact/hooks';

/** `go` is called with what added the row; its first line to type in then has the keyboard. */
export function useNewRow<E extends HTMLElement>(line: string) {
  const within = useRef<E>(null);
  const added = useRef(false);
  useEffect(() => {
    if (!added.current) return;
    added.current = false;
    const lines = within.current?.querySelectorAll<HTMLInputElement>(`input[name$="${line}"]`);
    lines?.[lines.length - 1]?.focus();
  });
  const go = (add: () => void): void => {
    added.current = true;
    add();
  };
  return { within, go };
}
