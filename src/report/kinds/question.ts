import type { QuestionCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, math, type Hand, type Insertion } from '../markup.ts';
import { cellAnchor, note, notesBeside, partId, problemLine, type CellTemplate } from '../parts.ts';
import { presentQuestion, type PresentedQuestion } from '../present/question.ts';
import { entry, OPEN_QUESTIONS } from '../report-part.ts';

export const questionForm: Form<QuestionCell> = {
  template: (cell, context) => questionTemplate(cell, presentQuestion(cell, context)),
  report: (cell, context) => {
    const question = presentQuestion(cell, context);
    if (question.typed === '' && question.problems.length === 0) return { open: { under: OPEN_QUESTIONS, name: question.label } };
    const line = html`<span class="label">${question.label}</span> ${answerRun(question)}`;
    return { here: entry(cellAnchor(cell.id), 'question', line, { notes: question, below: verdictLine(cell, question) }), notes: { name: question.label, texts: [question.note] } };
  },
};

/** What only the page has at a question: where it is answered, and another answer. */
interface QuestionHands {
  readonly blank?: Hand;
  readonly again?: Hand | undefined;
}

/** A question, the reader's answer, and what is said of it. */
export function questionTemplate(cell: QuestionCell, question: PresentedQuestion, { blank, again }: QuestionHands = {}): CellTemplate {
  const answer = blank !== undefined ? html`${blank}${blankHelp(cell, question)}` : (question.typed === '' ? html`<p class="withheld">${question.way === 'options' ? optionsList(question) : 'not answered'}</p>` : html`<p class="reply">${answerRun(question)}</p>`);
  return {
    notes: question,
    line: html`<p class="label" id="${partId(cell.id, 'question')}">${question.label}</p>${answer}${verdictLine(cell, question, again)}`,
    margin: [notesBeside(note(question.note))],
  };
}

/** Below the blank: what was read, in what it is asked, and what a wrong answer brings. */
function blankHelp(cell: QuestionCell, { typedTex, offeredTex, rule, sentence }: PresentedQuestion): Insertion {
  return html`${typedTex !== undefined && html`<p class="read-as">read as ${math(typedTex)}</p>`}<p class="question-help" id="${partId(cell.id, 'rule')}">${offeredTex.length > 0 && html`In ${offeredTex.map((tex, i) => html`${i > 0 && ', '}${math(tex)}`)}. `}${sentence === undefined && rule}</p>`;
}

function optionsList({ options }: PresentedQuestion): Insertion {
  return options.map(({ words }, i) => html`${i > 0 && '; '}${words}`);
}

/** The answer in words, as an expression, or the option taken. */
function answerRun({ way, options, typed, typedTex }: PresentedQuestion): Insertion {
  if (way === 'options') return options.find(({ isAnswer }) => isAnswer)?.words ?? typed;
  if (typedTex !== undefined) return math(typedTex);
  return html`<span class="own-words">${typed}</span>`;
}

function verdictLine(cell: QuestionCell, { sentence, verdict, problem, right, why }: PresentedQuestion, again?: Hand): Insertion {
  if (problem !== undefined) return html`<div id="${partId(cell.id, 'answer-problem')}">${problemLine(problem)}</div>`;
  if (sentence === undefined) return undefined;
  const said = verdict === 'other dimension' ? 'differs' : verdict?.replaceAll(' ', '-') ?? 'untold';
  return html`<p class="answer ${said}"><span class="sentence">${sentence}</span>${right !== undefined && verdict !== 'agrees' && html` <span class="right">Right is ${'tex' in right ? math(right.tex) : right.words}.</span>`}${why !== undefined && html` <span class="why">${why}</span>`}${again}</p>`;
}
