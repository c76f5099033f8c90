import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

/** More of it, made only once somebody opens it. */
export function More({ title, children }: { title: string; children: () => ComponentChildren }) {
  const [open, setOpen] = useState(false);
  return (
    <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{title}</summary>
      {open && children()}
    </details>
  );
}
