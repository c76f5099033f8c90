// Written by `npm run catalog` from catalog/can-limits.csv and salts.csv, and held against them by a test: change those, not this.
import type { CanLimit } from '../catalog/can-limits.js';
import type { Acid } from '../catalog/compile.js';

export const CAN_LIMITS: readonly CanLimit[] = [
  { quantity: "alkalinity", of: "sphagnum", least: null, aim: 20, most: 40, source: "Greenhouse Management, Production pointers: understanding alkalinity: small cells bear about 40 to 60 (excerpt read); the lower end, and less to aim at", evidence: "from memory, unchecked", notes: "moss has no buffer; no trial" },
  { quantity: "alkalinity", of: "mounted", least: null, aim: 40, most: 60, source: "Greenhouse Management, Production pointers: understanding alkalinity: small cells bear about 40 to 60 (excerpt read)", evidence: "from memory, unchecked", notes: "carried over to roots that nothing buffers; no trial" },
  { quantity: "alkalinity", of: "clay", least: null, aim: 40, most: 60, source: "Greenhouse Management, Production pointers: understanding alkalinity: small cells bear about 40 to 60 (excerpt read)", evidence: "from memory, unchecked", notes: "carried over to media that nothing buffers; no trial" },
  { quantity: "alkalinity", of: "bark", least: null, aim: 60, most: 100, source: "University of Massachusetts Amherst Extension, Water quality: pH and alkalinity: 0 to 100 acceptable, 30 to 60 best for most greenhouse plants (excerpt read)", evidence: "handbook", notes: "carried over to bark" },
  { quantity: "alkalinity", of: "coir", least: null, aim: 60, most: 100, source: "University of Massachusetts Amherst Extension, Water quality: pH and alkalinity: 0 to 100 acceptable, 30 to 60 best for most greenhouse plants (excerpt read)", evidence: "handbook", notes: "carried over to coir" },
  { quantity: "alkalinity", of: "peat", least: null, aim: 60, most: 100, source: "University of Massachusetts Amherst Extension, Water quality: pH and alkalinity: 0 to 100 acceptable, 30 to 60 best for most greenhouse plants (excerpt read)", evidence: "handbook", notes: "" },
  { quantity: "chelate", of: "none", least: null, aim: null, most: 6.2, source: "Argo & Fisher, Understanding pH Management for Container-Grown Crops, as quoted on a training page: availability falls above pH 6.2", evidence: "handbook", notes: "iron salts and the iron of a water" },
  { quantity: "chelate", of: "citrate", least: null, aim: null, most: 6.2, source: "as iron without a chelate: no range found, and light destroys it", evidence: "from memory, unchecked", notes: "" },
  { quantity: "chelate", of: "EDTA", least: null, aim: null, most: 7, source: "Argo & Fisher, Understanding pH Management for Container-Grown Crops, as quoted on a training page: upper pH 7.0, reliability fair", evidence: "handbook", notes: "others say 6.5 (from memory)" },
  { quantity: "chelate", of: "HEDTA", least: null, aim: null, most: 7, source: "as EDTA, its nearest kin (from memory, unchecked)", evidence: "from memory, unchecked", notes: "" },
  { quantity: "chelate", of: "DTPA", least: null, aim: null, most: 7.5, source: "Argo & Fisher, Understanding pH Management for Container-Grown Crops, as quoted on a training page: upper pH 7.5, reliability better", evidence: "handbook", notes: "blue and UV light destroys it (Albano & Miller 2001)" },
  { quantity: "chelate", of: "EDDHA", least: 4, aim: null, most: 9, source: "Argo & Fisher, as quoted on a training page: upper pH 9.0 or more; Reactivity of synthetic Fe chelates with soils and soil components (abstract): whole from pH 4 to 9 even beside calcium", evidence: "handbook", notes: "acid peat holds it back" },
  { quantity: "chelate", of: "EDDHMA", least: 4, aim: null, most: 9, source: "Reactivity of synthetic Fe chelates with soils and soil components (abstract): whole from pH 4 to 9 even beside calcium", evidence: "handbook", notes: "" },
  { quantity: "chelate", of: "HBED", least: 4, aim: null, most: 9, source: "as EDDHA: its stability constant lies above (Lopez-Rayo et al. 2009, abstract); no range of pH in the part read", evidence: "from memory, unchecked", notes: "" },
  { quantity: "ammonia", of: "*", least: null, aim: null, most: 0.5, source: "roots of seedlings are hurt by a few mg/L of nitrogen as free ammonia (from memory, unchecked); a cautious share of it", evidence: "from memory, unchecked", notes: "no source read" },
  { quantity: "keeping", of: "organic", least: null, aim: null, most: 24, source: "kelp, fish, humic matter, amino acids and sugars feed microbes, and the can begins to smell within a day or two (common practice, no source)", evidence: "grower practice", notes: "the cautious side" },
  { quantity: "keeping", of: "urea", least: null, aim: null, most: 48, source: "Mattson, Leatherwood & Peters 2009 (excerpt read): in growing medium urea turns to ammonium in under two days; a jug holds fewer microbes and is taken as medium", evidence: "from memory, unchecked", notes: "carried over from medium to a jug; nothing read of jugs" },
  { quantity: "keeping", of: "borderline", least: null, aim: null, most: 24, source: "within 0.3 of saturation by the solution model, the error of the model and of a spoon; a day is from memory", evidence: "from memory, unchecked", notes: "" },
  { quantity: "keeping", of: "will cloud", least: null, aim: null, most: 0, source: "over saturation by more than 0.3 by the solution model: it clouds within the hours it stands", evidence: "from memory, unchecked", notes: "" },
  { quantity: "keeping", of: "iron not held", least: null, aim: null, most: 24, source: "above the pH that its chelate bears iron falls out within a day or so (from memory, unchecked); the rest of the feed is as good as before", evidence: "from memory, unchecked", notes: "" },
  { quantity: "keeping", of: "light", least: null, aim: null, most: 168, source: "Albano & Miller 2001 (abstract read): blue and UV light destroy Fe-DTPA in nutrient solutions, heat speeds it; no time is given, and a week in the dark is common practice without a source", evidence: "from memory, unchecked", notes: "algae grow wherever there is light" },
];

/** Acids of the catalog: meq taken up by one mL or g, mg of each element that comes with it, and the most of it in a litre. */
export const ACIDS: readonly Acid[] = [
  { id: "nitric-acid", name: "Nitric acid 53 %", unit: "mL", meq: 11.186758077826447, nitrogen: 156.69292039611503, phosphorus: 0, most: 0.04 },
  { id: "phosphoric-acid", name: "Phosphoric acid 75 %", unit: "mL", meq: 12.092577096556932, nitrogen: 0, phosphorus: 374.5554829887544, most: 0.035 },
];
