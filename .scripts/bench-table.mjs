// The bench's rows as lines of a table: what, ours, the peer's, their ratio, what was wanted. Used by each benchmark and for the table of a whole run.

/** Value below which the share `p` of the times lies (nearest rank). */
function rank(times, p) {
  const sorted = [...times].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(p * sorted.length) - 1)] ?? Number.NaN;
}

const figure = (value) => (Math.abs(value) < 10 ? value.toFixed(2) : value < 1000 ? value.toFixed(1) : value.toFixed(0));

/** Median, between which the middle half of the runs lies, and of many runs what only one in twenty passes. */
function spread(times, unit) {
  if (times.length === 0) return '';
  if (times.length < 3) return `${figure(rank(times, 0.5))} ${unit}`;
  const seldom = times.length < 20 ? '' : `; 95 %: ${figure(rank(times, 0.95))}`;
  return `${figure(rank(times, 0.5))} ${unit} (${figure(rank(times, 0.25))} to ${figure(rank(times, 0.75))}${seldom})`;
}

/** What a row says of its targets: of each whether it was kept, and by how much one was missed. */
function verdict({ times, unit = 'ms', target, peer, ratioTarget }) {
  const median = rank(times, 0.5);
  const ratio = peer === undefined ? Number.NaN : median / rank(peer.times, 0.5);
  const against = (value, most, said) => `${said}: ${value <= most ? 'kept' : `MISSED by ${Math.ceil(100 * (value / most - 1))} %`}`;
  return [
    ...(target === undefined ? [] : [against(median, target, `${target} ${unit}`)]),
    ...(ratioTarget === undefined || Number.isNaN(ratio) ? [] : [against(ratio, ratioTarget, `ratio ${Number(ratioTarget.toFixed(2))}`)]),
    ...(ratioTarget !== undefined && Number.isNaN(ratio) ? [`ratio ${ratioTarget}: not compared`] : []),
  ].join('; ');
}

const HEAD = ['', 'ours: median (middle half of runs)', 'peer', 'its median (middle half of runs)', 'ratio', 'target'];

/** The cells of a row, under `HEAD`. */
function cellsOf(row) {
  const { what, times, unit = 'ms', peer } = row;
  return [
    what, spread(times, unit), peer?.what ?? '', peer === undefined ? '' : spread(peer.times, unit),
    peer === undefined ? '' : (rank(times, 0.5) / rank(peer.times, 0.5)).toFixed(2), verdict(row),
  ];
}

/** Rows under their head, in columns; those that no row fills are left out. */
export function rowLines(rows) {
  const cells = [HEAD, ...rows.map(cellsOf)];
  const used = HEAD.map((_, column) => column).filter((column) => column === 0 || cells.slice(1).some((row) => row[column] !== ''));
  const widths = used.map((column) => Math.max(...cells.map((row) => row[column].length)));
  return cells.map((row) => used.map((column, i) => row[column].padEnd(widths[i])).join('  ').trimEnd());
}

/** The same as a table in Markdown, without its title. */
export function markdownOf(rows) {
  const line = (cells) => `| ${cells.join(' | ')} |`;
  return [line(HEAD), line(HEAD.map(() => '---')), ...rows.map((row) => line(cellsOf(row)))].join('\n');
}
