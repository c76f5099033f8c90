import { type Catalog, type CatalogTexts, readCatalog } from '../../src/catalog/index.js';
import { clean } from './told.js';

/** A catalog small enough to hold in the head; everything in it is invented for the tests. */
export const LITTLE: CatalogTexts = {
  salts: 'id,name,form,basis,formula\npotassium-nitrate,Potassium nitrate,powder,w/w,KNO3\n',
  products:
    'id,name,form,basis,N,NO3-N,NH4-N,urea-N,P2O5,K2O,pack,price\nplain,Plain feed,powder,w/w,10,6,4,0,5,10,500 g,9\n',
  waters:
    'id,name,synonyms,NO3-N,Ca,Mg,Na,alkalinity,pH,price_per_litre\nrain,Rain water,rainwater;roof water,0.3,1.5,0.3,1.5,2,6,0\nhard-tap,Hard tap water,hard,5,60,10,25,147.5,7.6,0.002\n',
  media: `id,name,synonyms\nsphagnum,Sphagnum moss,moss\nbark,Bark,fir bark\ncoir,Coir,coco\npeat,Peat,peat mix\nclay,Clay,clay pellets\nmounted,Mounted,slab\n`,
  phases: 'id,name,synonyms\ngrowth,Growth,summer\nbloom,Bloom,spike\nrest,Rest,winter\n',
  plants:
    'id,name,synonyms,media\nphalaenopsis,Moth orchids,moth orchid;phal,moss;bark\npleurothallid,Pleurothallids,masdevallia,sphagnum\n',
  bands: 'plants,nutrient,min,aim,max\n*,Fe,0.2,1,3\nphalaenopsis,N,75,125,200\n',
  factors: 'plants,medium,phase,nutrient,factor\n*,*,rest,*,0.45\n*,moss,*,*,0.85\n',
  rules: 'plants,medium,phase,rule\n*,*,*,NH4 <= 0.5 * N\nphalaenopsis,moss,*,EC <= 0.8\n',
  solubility: 'id,name,formula,at_0,at_10,at_20,at_30\npotassium-nitrate,potassium nitrate,KNO3,13.3,20.9,31.6,45.8\n',
};

export const littleCatalog = (): Catalog => clean(readCatalog(LITTLE));

/** The catalog with some files changed. */
export const withFiles = (files: Partial<CatalogTexts>) => readCatalog({ ...LITTLE, ...files });
