import { useRef } from 'preact/hooks';
import { download } from '../exchange.js';

/** A page to print, in a frame that may run nothing; to be printed by the browser, or written out as a file. */
export function Paper({ name, title, html }: { name: string; title: string; html: string }) {
  const frame = useRef<HTMLIFrameElement>(null);
  const print = (): void => {
    frame.current?.contentWindow?.focus();
    frame.current?.contentWindow?.print();
  };
  return (
    <section class="paper">
      <div class="row">
        <button type="button" class="main" onClick={print}>
          Print it
        </button>
        <button type="button" onClick={() => download(name, new TextEncoder().encode(html))}>
          Write out {name}
        </button>
      </div>
      <section class="wide" aria-label={title}>
        <iframe
          ref={frame}
          title={title}
          srcdoc={html.replaceAll(' style="', ` ${SET_LATER}="`)}
          sandbox="allow-same-origin allow-modals"
          onLoad={(event) => sized(event.currentTarget)}
        />
      </section>
    </section>
  );
}

/** Quotes in texts are escaped by the reports, so that this name stands in markup only. */
const SET_LATER = 'data-set-later';

/** The policy of this page refuses styles that stand in the frame's markup, so they are set one by one; then it is as high as what is in it. */
function sized(frame: HTMLIFrameElement): void {
  const there = frame.contentDocument;
  if (there === null) return;
  for (const element of there.querySelectorAll<HTMLElement>(`[${SET_LATER}]`))
    element.style.cssText = element.getAttribute(SET_LATER) ?? '';
  // paper is white in the dark, too
  there.documentElement.style.colorScheme = 'light';
  frame.height = String(there.documentElement.scrollHeight + 2);
}
