/** How many seeds a test asks: `few` of them in the usual run, all where VELAMEN_SEEDS=all. */
export const seeds = (few: number, all: number): number => (process.env.VELAMEN_SEEDS === 'all' ? all : few);
