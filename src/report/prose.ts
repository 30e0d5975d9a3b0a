import createMarkdownIt, { type Env, type MarkdownIt, type StateInline, type Token } from 'markdown-it';
import { rememberedShortTexts } from '../core/remembered/index.ts';
import { html, htmlText, trusted } from './markup.ts';
import { isAfterColon, LIVE_VALUE_HERE, liveValue } from './present/live.ts';
import type { PresentContext } from './present/types.ts';

interface ProseOptions {
  /** Numbers of the headings, in their order; '' for none. Absent where headings are not sections (in a remark). */
  readonly numbers?: readonly string[];
}

interface ProseState extends ProseOptions {
  readonly context: PresentContext;
  nextHeading: number;
}

/** So many opening brackets in one text are no links any more, and looking for where each ends would take seconds: they stay text. */
const MOST_BRACKETS = 2000;

const usual = createMarkdown();
const withoutLinks = createMarkdown().disable('link');

function readerOf(source: string): MarkdownIt {
  let at = -1;
  for (let count = 0; count <= MOST_BRACKETS; count += 1) {
    at = source.indexOf('[', at + 1);
    if (at < 0) return usual;
  }
  return withoutLinks;
}

/** A text is read once, whoever asks for its headings or has it shown with other values. */
const tokensOf = rememberedShortTexts(600, 20_000, (source): readonly Token[] => readerOf(source).parse(source, {}));

/** CommonMark without HTML and images; links only to the web, to mail and within the page. Live values put in. */
export function renderProse(source: string, context: PresentContext, options: ProseOptions = {}): string {
  const state: ProseState = { ...options, context, nextHeading: 0 };
  const { renderer, options: markdown } = readerOf(source);
  return renderer.render([...tokensOf(source)], markdown, { state });
}

/** Level of each heading of a prose block, in order. */
export function headingLevels(source: string): readonly number[] {
  return headingsOf(source).map(({ level }) => level);
}

/** Headings of a prose block, in order, with their words. */
export function headingsOf(source: string): readonly { readonly level: number; readonly words: string }[] {
  const tokens = tokensOf(source);
  return tokens.flatMap((token, i) => (token.type === 'heading_open'
    ? [{ level: levelOf(token), words: (tokens[i + 1]?.children ?? []).map(({ content }) => content).join('') }]
    : []));
}

/** The words of a text's paragraphs and items, without marks; live values stand as they are written, `{=sigma_a}`. */
export function wordsOfProse(source: string): readonly string[] {
  const tokens = tokensOf(source);
  return tokens.flatMap((token, i) => (token.type === 'inline' && tokens[i - 1]?.type !== 'heading_open'
    ? [(token.children ?? []).map(({ type, content }) => (type === 'live' ? `{=${content}}` : type.endsWith('break') ? ' ' : content)).join('')]
    : []));
}

/** The text cut before each of its headings: what stands before the first, which may be nothing, and then each heading with what stands below it. */
export function cutAtHeadings(source: string): readonly string[] {
  const lines = source.split('\n');
  const starts = tokensOf(source).flatMap(({ type, level, map }) => (type === 'heading_open' && level === 0 && map != null ? [map[0]] : []));
  return [0, ...starts].map((start, i) => lines.slice(start, starts[i]).join('\n'));
}

function levelOf(token: Token): number {
  return Number(token.tag.slice(1));
}

function createMarkdown(): MarkdownIt {
  const md = createMarkdownIt({ html: false, linkify: false, typographer: false });
  md.disable('image');
  md.validateLink = (url) => /^(https?:\/\/|mailto:|#)/i.test(url.trim());
  md.inline.ruler.after('escape', 'live', readLiveValue);
  md.renderer.rules['live'] = (tokens, index, _options, environment) => {
    const part = liveValue(tokens[index]?.content ?? '', stateOf(environment).context, { isAfterColon: tokens[index]?.info === 'after colon' });
    return htmlText(html`<span class="live ${part.kind}">${part.text}</span>`);
  };
  md.renderer.rules['text'] = (tokens, index) => htmlText(html`${tokens[index]?.content ?? ''}`);
  md.renderer.rules['link_open'] = (tokens, index, options, _environment, self) => {
    tokens[index]?.attrSet('rel', 'noopener noreferrer');
    return self.renderToken(tokens, index, options);
  };
  md.renderer.rules['heading_open'] = (tokens, index, _options, environment) => {
    const token = tokens[index];
    const prose = stateOf(environment);
    const number = prose.numbers?.[prose.nextHeading++] ?? '';
    const tag = headingTag(token, prose);
    return number === '' ? `<${tag}>` : htmlText(html`<${trusted(tag)}><span class="number">${number}</span> `);
  };
  md.renderer.rules['heading_close'] = (tokens, index, _options, environment) => {
    return `</${headingTag(tokens[index], stateOf(environment))}>\n`;
  };
  return md;
}

/** What `renderProse` handed over: markdown-it passes it through untouched. */
function stateOf(environment: Env | undefined): ProseState {
  return environment?.['state'] as ProseState;
}

/** The page's h1 is the sheet's title: `#` and `##` come right below it; inside a remark all come below its heading. */
function headingTag(token: Token | undefined, { numbers }: ProseState): string {
  if (token === undefined || numbers === undefined) return 'h4';
  return `h${Math.min(Math.max(levelOf(token), 2), 4)}`;
}

function readLiveValue(state: StateInline, silent: boolean): boolean {
  LIVE_VALUE_HERE.lastIndex = state.pos;
  const match = LIVE_VALUE_HERE.exec(state.src);
  if (match === null) return false;
  if (!silent) {
    const token = state.push('live', '', 0);
    token.content = match[1] ?? '';
    token.info = isAfterColon(state.src, state.pos) ? 'after colon' : '';
  }
  state.pos += match[0].length;
  return true;
}
