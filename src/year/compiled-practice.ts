// Written by `npm run catalog` from catalog/*.csv, and held against them by a test: change those, not this.
import type { Practice } from '../catalog/practice.js';
import { filesOf } from '../catalog/written-rows.js';

export const compiledPractice = filesOf<Practice>({
  rests: [
    '{"plants":"*","from":11,"to":2,"refs":["common-practice"],"source":"days are short and windows dim from November to February","evidence":"grower practice","notes":"indoors under lamps there may be no rest at all: give your own light"}',
    '{"plants":"dendrobium-nobile","from":10,"to":1,"refs":["Bichsel2008","Yen2008","Selby_nobile"],"source":"feed stopped on 1 September (Bichsel 2008) or 1 October (Yen 2008) in trials; Selby: water as usual again when buds show","evidence":"grower practice","notes":"the trials disagree on the month; buds decide when it ends"}',
    '{"plants":"deciduous-orchid","from":11,"to":3,"refs":["CSOS_Catasetum","OrchidDigest2019","Pleione_info"],"source":"dry when leaves yellow and drop, until new growth: autumn and winter, driest in its last weeks","evidence":"grower practice","notes":"the plants decide: leaves at the start and new roots at the end"}',
  ],
  flushes: [
    '{"medium":"sphagnum","everyWeeks":4,"potVolumes":2,"refs":["AOS_secondary","LeachUA_secondary"],"source":"every fourth week or monthly (page that names an orchid society); twice what the pot holds (page that names a university, of house plants)","evidence":"grower practice","notes":"both pages are second hand"}',
    '{"medium":"bark","everyWeeks":4,"potVolumes":2,"refs":["AOS_secondary","LeachUA_secondary"],"source":"every fourth week or monthly (page that names an orchid society); twice what the pot holds (page that names a university, of house plants)","evidence":"grower practice","notes":"both pages are second hand"}',
    '{"medium":"coir","everyWeeks":4,"potVolumes":2,"refs":["AOS_secondary","LeachUA_secondary"],"source":"every fourth week or monthly (page that names an orchid society); twice what the pot holds (page that names a university, of house plants)","evidence":"grower practice","notes":"both pages are second hand"}',
    '{"medium":"peat","everyWeeks":13,"potVolumes":2,"refs":["LeachUA_secondary","LeachNCSU_secondary"],"source":"house plants: three to four times a year with twice what the pot holds; another page says every four to six months","evidence":"grower practice","notes":"both pages are second hand; the shorter time is taken"}',
    '{"medium":"clay","everyWeeks":4,"potVolumes":2,"refs":["common-practice"],"source":"as in bark: nothing buffers and salts stay on the grains","evidence":"grower practice","notes":"common practice, no source"}',
    '{"medium":"mounted","everyWeeks":4,"potVolumes":null,"refs":["common-practice"],"source":"one watering in four weeks with plain water: what is poured runs through","evidence":"grower practice","notes":"common practice, no source"}',
  ],
  humidities: [
    '{"name":"calcium nitrate","formulas":["Ca(NO3)2·4H2O"],"humidity":46.7,"refs":["CRH_table"],"source":"table of pure salts at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"ammonium nitrate","formulas":["NH4NO3"],"humidity":59.4,"refs":["CRH_table"],"source":"table of pure salts at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"sodium nitrate","formulas":["NaNO3"],"humidity":72.4,"refs":["CRH_table"],"source":"table of pure salts at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"urea","formulas":["CO(NH2)2"],"humidity":70,"refs":["CRH_table","Clayton1984"],"source":"72.5 in the table of pure salts at 30 °C; commercial grades near 70 (Clayton 1984)","evidence":"handbook","notes":"the lower of the two"}',
    '{"name":"ammonium chloride","formulas":["NH4Cl"],"humidity":77.2,"refs":["CRH_table"],"source":"table of pure salts at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"ammonium sulfate","formulas":["(NH4)2SO4"],"humidity":79.2,"refs":["CRH_table"],"source":"table of pure salts at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"diammonium phosphate","formulas":["(NH4)2HPO4"],"humidity":70,"refs":["CRH_table","Clayton1984"],"source":"82.5 in the table of pure salts at 30 °C; commercial grades near 70 (Clayton 1984)","evidence":"handbook","notes":"the lower of the two"}',
    '{"name":"potassium chloride","formulas":["KCl"],"humidity":70,"refs":["CRH_table","Clayton1984"],"source":"84.0 in the table of pure salts at 30 °C; commercial grades near 70 (Clayton 1984)","evidence":"handbook","notes":"the lower of the two"}',
    '{"name":"potassium nitrate","formulas":["KNO3"],"humidity":90.5,"refs":["CRH_table"],"source":"table of pure salts at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"monoammonium phosphate","formulas":["NH4H2PO4"],"humidity":70,"refs":["CRH_table","Clayton1984"],"source":"91.6 in the table of pure salts at 30 °C; commercial grades near 70 (Clayton 1984)","evidence":"handbook","notes":"the lower of the two"}',
    '{"name":"monocalcium phosphate","formulas":["Ca(H2PO4)2·H2O"],"humidity":93.6,"refs":["CRH_table"],"source":"table of pure salts at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"potassium sulfate","formulas":["K2SO4"],"humidity":96.3,"refs":["CRH_table"],"source":"table of pure salts at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"ammonium nitrate and urea","formulas":["NH4NO3","CO(NH2)2"],"humidity":18.1,"refs":["CRH_table"],"source":"table of mixtures at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"ammonium nitrate and ammonium sulfate","formulas":["NH4NO3","(NH4)2SO4"],"humidity":62.3,"refs":["CRH_table"],"source":"table of mixtures at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"ammonium nitrate and potassium chloride","formulas":["NH4NO3","KCl"],"humidity":67.9,"refs":["CRH_table"],"source":"table of mixtures at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"urea and ammonium sulfate","formulas":["CO(NH2)2","(NH4)2SO4"],"humidity":56.4,"refs":["CRH_table"],"source":"table of mixtures at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"urea and potassium chloride","formulas":["CO(NH2)2","KCl"],"humidity":60.3,"refs":["CRH_table"],"source":"table of mixtures at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"ammonium sulfate and potassium chloride","formulas":["(NH4)2SO4","KCl"],"humidity":71.3,"refs":["CRH_table"],"source":"table of mixtures at 30 °C","evidence":"handbook","notes":""}',
    '{"name":"blend","formulas":[],"humidity":55,"refs":["Clayton1984"],"source":"blends near 55, against 72 to 92 of pure salts; numbers read as quoted elsewhere","evidence":"handbook","notes":"any mixture that has no row of its own"}',
  ],
});
