import { AMOUNT, N } from './amounts.js';

/** A pattern of a whole clause: what stands beside it is not understood. */
export const on = (pattern: string): RegExp => new RegExp(`^(?:${pattern})$`, 'u');
const ITEMS = '(?<items>.+?)';
const GIVEN = String.raw`(?:added|put in|used|gave|measured|measured out|dosed|took|poured in|mixed in|spooned in|weighed out|weighed|there (?:is|was|are|were)|it has|it had|in went|got)`;
const BE = String.raw`(?:was|were|is|are|got|has been|have been|had been)`;
const IN = String.raw`(?: in| to it| into it| in it)?`;

/** Words that say that items are not in. */
export const FORGOTTEN = [
  on(String.raw`left ${ITEMS} (?:out|off)`),
  on(
    String.raw`(?:forgot|forgotten|forgetting|missed|missed out|skipped|omitted|left out|left off|missing)(?: all)?(?: about| to (?:add|put in|put|measure|use))?(?: in| out)?:? ${ITEMS}(?: in| out)?`,
  ),
  on(
    String.raw`${ITEMS}:? (?:${BE} )?(?:forgotten|left out|missing|skipped|omitted|not added|never added|not in|not put in|not used|missed|missed out)`,
  ),
  on(
    String.raw`(?:did not|never|have not|had not) (?:add|added|put|put in|use|used|give|given) ${ITEMS}${IN}(?: yet)?`,
  ),
  on(
    String.raw`${ITEMS} (?:did not|never|has not|have not) (?:(?:go|went|gone|get|got|gotten|make it|made it) in(?:to it)?|(?:get|got) (?:added|put in))`,
  ),
  on(String.raw`(?:no|without|minus|zero) (?:any )?${ITEMS}(?: in it| went in| added| was added| at all)?`),
];
export const ALL_BUT = on(
  String.raw`(?:${GIVEN} )?(?:everything|all|all of it|all items)(?: is in| went in| in)? (?:but|except|except for|bar|apart from) ${ITEMS}(?: went in| is in| added| was added)?`,
);

const TIMES = String.raw`(?:once|twice|double|doubled|two times|2 times|2x|x2|x 2|2 x|thrice|three times|3 times|3x|x3|triple|tripled|four times|4 times|4x|x4|ten times|10 times|10x|${N} ?x|${N} times|half|halved|a half|1\/2|a third|1\/3|two thirds|2\/3|a quarter|quarter|1\/4|three quarters|3\/4|a tenth|1\/10)`;
/** A factor on what was planned. */
export const TIMES_OF = [
  on(
    String.raw`${ITEMS}:?(?: ${BE})?(?: went in| added| in| put in| given| dosed)? (?:only )?(?<times>once|twice|doubled|double|two times|2 times|2x|x2|thrice|three times|3 times|3x|x3|tripled|triple|four times|4 times|halved)(?: over)?(?: instead of once)?`,
  ),
  on(
    String.raw`(?:${GIVEN}|put|poured|mixed|stirred) ${ITEMS}(?: in)? (?<times>once|twice|double|two times|2 times|thrice|three times|3 times|four times|4 times)(?: instead of once)?`,
  ),
  on(
    String.raw`(?:only |just )?(?:${GIVEN} )?(?:only |just )?(?:an? )?(?<times>${TIMES}) (?:of )?(?:the |a |an )?(?:doses?|amounts?|portions?|helpings?|quantity|measure) (?:of |for )?${ITEMS}(?: went in)?`,
  ),
  on(
    String.raw`(?:only |just )?(?:${GIVEN} )?(?:only |just )?(?<times>${TIMES})(?: of)?(?: the)? ${ITEMS}(?: went in)?`,
  ),
  on(
    String.raw`(?:${GIVEN} )?(?<times>twice|double|half|three times|3 times|ten times|10 times) as much ${ITEMS}(?: as (?:planned|told|on the sheet))?`,
  ),
  on(String.raw`(?<times>doubled|tripled|halved)(?: up)?(?: on)? ${ITEMS}`),
  on(
    String.raw`(?:${GIVEN} )?(?<times>two|2|three|3|four|4) (?:whole |full )?(?:doses|portions|helpings|measures|lots) of ${ITEMS}`,
  ),
  on(String.raw`(?:${GIVEN} )?(?:a |the )?(?<times>second) (?:dose|portion|helping|lot) of ${ITEMS}`),
  on(String.raw`${ITEMS} at (?:only )?(?<times>half|double|twice)(?: the)?(?: dose| amount| strength| rate)?`),
];
/** `150 % of the base`, `base at 150 %`. */
export const SHARE_OF = [
  on(String.raw`(?:only )?(?:${GIVEN} )?(?:only )?(?<percent>\d+(?:[.,]\d+)?) ?(?:%|per ?cent) of(?: the)? ${ITEMS}`),
  on(String.raw`${ITEMS} at (?<percent>\d+(?:[.,]\d+)?) ?(?:%|per ?cent)`),
];
/** Heaped spoons for level ones. */
export const HEAPED_UP = [
  on(String.raw`(?:${GIVEN} )?(?:a )?(?:heaped|heaping) spoons?(?:ful|fuls)? (?:of|for) ${ITEMS}`),
  on(String.raw`heaped (?:the |up the )?(?:spoons? (?:of|for) )?${ITEMS}(?: spoons?)?`),
  on(String.raw`${ITEMS}:? (?:${BE} )?heaped`),
];
/** Nothing was otherwise. */
export const AS_TOLD = on(
  String.raw`nothing(?: else)?(?: wrong| went wrong)?|all (?:good|right|fine|well|as planned|as told)|(?:did |made |mixed )?(?:everything|it|all)(?: (?:was|is|went in|done))? (?:right|as planned|by the sheet|as on the sheet|as told|correctly|fine)|(?:followed|by|as on) the sheet|as planned`,
);
export const STRENGTH = on(
  String.raw`(?:made (?:it )?|mixed (?:it )?|it is |it was )?(?:only )?(?:at |to )?(?<times>double|twice(?: the)?|half|triple|a quarter|quarter) (?:strength|strong)|strength (?<changed>doubled|halved|tripled)`,
);
/** A factor that is told of nothing: of one item, or of all. */
export const OF_WHAT = on(
  String.raw`(?:a |an )?(?:twice|double|doubled|doubled it|double dose|half|half dose|halved|triple|triple dose|went in twice|double[- ]dosed|added twice|did it twice|put it in twice|added it twice|overdosed|underdosed)`,
);
export const AMBIGUOUS_TIMES = on(
  String.raw`(?:${GIVEN} )?(?:an? )?(?:(?:${N}|two|three|four|five|ten|twice) (?:times|x) (?:more|too much|less|too little|over)|(?:twice|double) too much)(?: of)?(?: the)? ${ITEMS}`,
);
export const PERCENT = [
  on(
    String.raw`(?:${GIVEN} )?(?<percent>\d+(?:[.,]\d+)?) ?(?:%|per ?cent) (?<side>more|extra|too much|less|too little)(?: of)?(?: the)? ${ITEMS}`,
  ),
  on(
    String.raw`${ITEMS} (?:by )?(?<percent>\d+(?:[.,]\d+)?) ?(?:%|per ?cent) (?<side>too much|over|too little|under|too high|too low)`,
  ),
];
export const VAGUE = [
  on(
    String.raw`(?:${GIVEN} )?(?:an? )?(?:bit |little |far |way |much |lot |tad |touch )?(?:too much|too little|more|less|extra|not enough|a bit of|some more|some extra)(?: of)? ${ITEMS}`,
  ),
  on(String.raw`(?:overdosed|underdosed)(?: on)? ${ITEMS}`),
  on(String.raw`(?:used )?(?:the )?wrong (?:spoon|amount|dose|measure)(?: for| of| with)? ${ITEMS}`),
];

/** `a tsp for half a tsp` says the same, where both amounts have their unit. */
const AS_MEANT = String.raw`(?:(?:instead of|rather than|in place of|and not|not|where it should (?:have been|be)|should have been) (?:the )?(?<meant>${AMOUNT}|${N})|for (?:the )?(?<meantFor>${AMOUNT}))`;
export const AMOUNTS = [
  on(
    String.raw`(?:only |just )?(?:${GIVEN} )?(?:only |just )?(?<amount>${AMOUNT})(?: of| for)?(?: the)? ${ITEMS},? ${AS_MEANT}(?: of it)?`,
  ),
  on(
    String.raw`(?:only |just )?(?:${GIVEN} )?(?:only |just )?(?<amount>${AMOUNT}) ${AS_MEANT}(?: of| for| with| when measuring)?(?: the)? ${ITEMS}`,
  ),
  on(String.raw`(?:${GIVEN} )?${ITEMS}:? ?=? ?(?:only |just )?(?<amount>${AMOUNT}),? ${AS_MEANT}`),
  on(String.raw`(?:for|with) (?:the )?${ITEMS},? (?:i |we )?(?:${GIVEN} )?(?<amount>${AMOUNT}) ${AS_MEANT}`),
  on(
    String.raw`instead of (?<meant>${AMOUNT}|${N})(?: of| for)? ${ITEMS},? (?:i |we )?(?:${GIVEN} )?(?<amount>${AMOUNT})(?: went in| was added)?`,
  ),
  on(
    String.raw`instead of (?<meant>${AMOUNT}),? (?:i |we )?(?:${GIVEN} )?(?<amount>${AMOUNT})(?: of| for)? ${ITEMS}(?: went in| was added)?`,
  ),
  on(
    String.raw`(?:only |just )?(?:${GIVEN} )?(?:only |just )?(?<amount>${AMOUNT})(?: of)?(?: the)? ${ITEMS}(?: went in| was added| is in)?`,
  ),
  on(String.raw`put (?:only |just )?(?<amount>${AMOUNT})(?: of)?(?: the)? ${ITEMS} in`),
  on(String.raw`(?:${GIVEN} )?${ITEMS}(?: was)?:? ?=? ?(?:only |just )?(?<amount>${AMOUNT})`),
];
export const NO_ITEM = on(String.raw`(?:only |just )?(?:${GIVEN} )?(?:only |just )?(?<amount>${AMOUNT}) ${AS_MEANT}`);
export const MORE = [
  on(
    String.raw`(?:${GIVEN} )?(?<amount>${AMOUNT}) (?<side>too much|too many|more|extra|too little|too few|less|short)(?: of)?(?: the)? ${ITEMS}`,
  ),
  on(
    String.raw`(?:${GIVEN} )?(?<amount>${AMOUNT})(?: of)?(?: the)? ${ITEMS} (?<side>too much|too many|extra|too little|too few|short|more|less)`,
  ),
  on(
    String.raw`${ITEMS} (?:by )?(?<amount>${AMOUNT}) (?<side>too much|too many|extra|too little|too few|short|more|less|over|under)`,
  ),
  on(
    String.raw`(?:${GIVEN} )?(?:an |another |one )(?<side>extra|more|)\s?(?<amount>${AMOUNT})(?: of)?(?: the)? ${ITEMS}`,
  ),
];
export const SWAPPED = [
  on(
    String.raw`(?:swapped|exchanged|switched|interchanged|confused|mixed up)(?: the (?:amounts|doses|spoons) (?:of|for))? (?<one>.+?) (?:and|with|for|&) (?<two>.+?)`,
  ),
  on(
    String.raw`(?<one>.+?) and (?<two>.+?) (?:${BE} )?(?:swapped|exchanged|switched|interchanged|confused|the wrong way round|the wrong way around|mixed up|swapped over)`,
  ),
];
export const ORDER = on(
  String.raw`(?:${GIVEN} )?.+? (?:before|after|first|last|ahead of)(?: .+)?|.*(?:wrong order|out of order).*`,
);
