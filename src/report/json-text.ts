/** A value as JSON, two spaces deep. @throws where a number is not finite: that would silently become null. */
export function jsonText(value: unknown): string {
  const text = JSON.stringify(
    value,
    (key, part: unknown) => {
      if (typeof part === 'number' && !Number.isFinite(part))
        throw new Error(`"${key}" is ${part}, which JSON cannot hold`);
      return part;
    },
    2,
  );
  return `${text}\n`;
}
