/** A bench whose feed takes six items, one of them with a name that is markup. Generic salts; the trace liquid is invented. */
export const SIX_ITEMS = {
  'shelf.csv': `id,name,form,basis,formula,Fe,Mn,Zn,Cu,B,Mo,Na,Cl,S,N,bulk_density,pack,price,derived_from
cano3,Calcium nitrate,powder,w/w,Ca(NO3)2·4H2O,,,,,,,,,,,0.9,1 kg,4,
kno3,Potassium nitrate,powder,w/w,KNO3,,,,,,,,,,,1.15,1 kg,7.5,
mgso4,Magnesium sulfate,powder,w/w,MgSO4·7H2O,,,,,,,,,,,0.95,1 kg,3.9,
mkp,Monopotassium phosphate,powder,w/w,KH2PO4,,,,,,,,,,,1.15,1 kg,9.5,
nh4no3,Ammonium nitrate,powder,w/w,NH4NO3,,,,,,,,,,,0.9,1 kg,5,
trace,"Iron <b>chelate</b> & ""traces""",liquid,w/v,,0.15,0.058,0.021,0.006,0.02,0.0023,0,0,0,0,,250 mL,8.2,
`,
  'bench.yaml': `name: six items
currency: EUR
water: pure
kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp, 1/16 tsp, 1/32 tsp], scale: 0.01 g, syringe: 1 mL, dropper: 20 drops/mL }
pen: { scale: 500 }
feeds:
  six:
    plants: phalaenopsis
    medium: bark
    strength: 80 %
    batch: 8 L
    rules: ["NH4 >= 0.05 * N", "P >= 10", "Mg >= 8", "S <= 40"]
`,
};
