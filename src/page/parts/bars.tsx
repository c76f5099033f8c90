import type { Laid } from '../../report/band.js';
import type { BarView } from '../work/bars.js';
import { More } from './more.js';
import { Sum } from './sum.js';

/** Elements against their bands: a root from least to most, a notch at the aim, a drop where the mix is. Every figure also stands in words. */
export const Bars = ({ bars }: { bars: readonly BarView[] }) => (
  <ul class="bars">
    {bars.map((bar) => (
      <li key={bar.name} class={bar.standing === '' ? undefined : 'off'}>
        {bar.sum.length === 0 ? (
          <div class="bar">
            <Line bar={bar} />
          </div>
        ) : (
          <More title={<Line bar={bar} />} look="bar">
            {() => <Sum lines={bar.sum} total={`${bar.mix} mg/L`} />}
          </More>
        )}
      </li>
    ))}
  </ul>
);

const Line = ({ bar }: { bar: BarView }) => (
  <>
    <span class="name">{bar.name}</span>
    <span class="mix">{bar.mix}</span>
    {bar.laid && <Root laid={bar.laid} />}
    <span class="ends">
      {bar.least !== '' && <span>least {bar.least}</span>}
      {bar.aim !== '' && <span>aim {bar.aim}</span>}
      {bar.most !== '' && <span>most {bar.most}</span>}
      {bar.standing !== '' && <strong>{bar.standing}</strong>}
      {bar.open !== '' && <span>{bar.open}</span>}
    </span>
  </>
);

const LEFT = 20;
const RIGHT = 180;

/** The picture beside the figures; it says nothing that they don't. */
function Root({ laid }: { laid: Laid }) {
  const x = (place: number): number => LEFT + place * (RIGHT - LEFT);
  const at = x(Math.min(1.1, Math.max(-0.1, laid.value)));
  return (
    <svg viewBox="0 0 200 22" aria-hidden="true" preserveAspectRatio="none">
      <path class="band" d={`M${laid.floor ? LEFT : 4} 11H${laid.ceiling ? RIGHT : 196}`} />
      {laid.high > laid.low && <path class="open" d={`M${x(laid.low)} 11H${x(laid.high)}`} />}
      {laid.aim !== null && <path class="aim" d={`M${x(laid.aim)} 1V21`} />}
      <ellipse class="drop" cx={at} cy="11" rx="5" ry="6" />
    </svg>
  );
}
