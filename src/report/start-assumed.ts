/** What nobody told, and what was taken for it. */
export type Assumed =
  | { of: 'name'; id: string; as: string }
  | { of: 'grade'; id: string; columns: readonly string[] }
  | { of: 'figure against grade'; id: string; printed: string }
  | { of: 'pack'; id: string; pack: string | null; price: string | null; leftOut: readonly string[] }
  | { of: 'density'; id: string; gramsPerMillilitre: number }
  | { of: 'bulk density'; ids: readonly string[]; gramsPerMillilitre: number; off: number }
  | { of: 'salt'; id: string; name: string; others: readonly string[] }
  | { of: 'law'; law: 'eu' }
  | { of: 'plants'; plants: string; medium: string }
  | { of: 'medium'; plants: string; medium: string }
  | { of: 'batch'; batch: string; ofKit: boolean }
  | { of: 'currency'; currency: string }
  | { of: 'kit' }
  | { of: 'pen' }
  | { of: 'water'; water: string }
  | { of: 'water by pen'; water: string; name: string; mSPerCm: number; readsMSPerCm: number };
