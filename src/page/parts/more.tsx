import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';

/** More of it, made only once somebody opens it. */
export function More({
  title,
  look,
  isOpen = false,
  children,
}: {
  title: ComponentChildren;
  /** Class of the line that opens it. */
  look?: string;
  /** Open from the start, where something in it has to be seen. */
  isOpen?: boolean;
  children: () => ComponentChildren;
}) {
  const [open, setOpen] = useState(isOpen);
  useEffect(() => {
    if (isOpen) setOpen(true);
  }, [isOpen]);
  return (
    <details open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary class={look}>{title}</summary>
      {open && children()}
    </details>
  );
}
