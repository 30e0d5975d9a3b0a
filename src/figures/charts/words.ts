/** A share in per cent: `90 %`, `99.9 %`. */
export function percent(share: number): string {
  return `${Number((100 * share).toPrecision(4))}\u00A0%`;
}

/** `1 specimen`, `5 specimens`. */
export function counted(count: number, one: string, more: string): string {
  const digits = String(count);
  return `${digits.length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, '\u202f')} ${count === 1 ? one : more}`;
}
