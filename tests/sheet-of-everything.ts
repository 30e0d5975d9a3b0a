import { hostileSheet } from './hostile-sheet.ts';

/** A little of everything, things that are wrong among it. Words are put in by `hostileSheet`, those of the table's rows stand here. */
export const OF_EVERYTHING = hostileSheet(`---
title: words
units: SI
course: words
team: words
machine: words
slips: d.radius
held_reference: "ж\\u202eю"
chief_results: sigma_a, y
held:
  - name: "ж\\u202eю"
    at: 2026-11-25T15:30:00+00:00
    inputs:
      d: 6.31 mm
  - name: "\\u202eж"
    inputs:
      nothing: 1 mm
---
Words {=sigma_a} words.

## Words

\`\`\`given
symbol: d
label: words
unit: mm
readings: [7.1, 7.2, 7.15]
trial: 7.3 mm
resolution: 0.01 mm
plausible: 0 mm .. 1 mm
slips:
  radius:
    label: words
    formula: d/2
    note: words
    source: words
note: words
\`\`\`

\`\`\`given
symbol: F
label: words
unit: N
value: 310 ± 2 N
note: words
\`\`\`

\`\`\`given
symbol: K
label: words
unit: "1"
value: ""
\`\`\`

\`\`\`given
symbol: G
label: words
unit: mm
value: 7 kg
instrument: "ж\\u202eю"
\`\`\`

\`\`\`choice
id: form
label: words
chosen: a
note: words
options:
  - key: a
    label: words
    source: words
    note: words
    sets:
      W: F - 2*unit(N)
      k: "3"
  - key: b
    label: words
    missing: words
    sets:
      W: F
      k: "2"
\`\`\`

\`\`\`step
symbol: W
label: words
by: form
unit: N
\`\`\`

\`\`\`step
symbol: sigma_a
label: words
formula: 32*W*unit(m)/(pi*d^3)/10
unit: MPa
note: words
\`\`\`

\`\`\`step
symbol: y
label: words
formula: sigma_a*2
unit: MPa
asked: true
\`\`\`

\`\`\`step
symbol: z
label: words
formula: K*G
\`\`\`

\`\`\`step
symbol: z
label: words
formula: d*unknown
\`\`\`

\`\`\`check
id: small
label: words
condition: sigma_a < 1 MPa
holds: words {=sigma_a} words
otherwise: words {=sigma_a} words {=d} words
\`\`\`

\`\`\`check
id: holds
label: words
condition: sigma_a > 1*unit(MPa)
holds: words {=sigma_a} words
otherwise: words
\`\`\`

\`\`\`check
id: fails
label: words
condition: sigma_a < 1*unit(MPa)
holds: words
otherwise: words {=sigma_a} words
\`\`\`

\`\`\`checklist
id: list
label: words
items:
  - words
  - text: words
    done: 2026-11-25T15:30:00+00:00
\`\`\`

\`\`\`remark
id: remark
heading: words
text: words {=sigma_a} words {=nothing} words
\`\`\`

\`\`\`table
id: specimens
label: words
columns:
  - key: specimen
    label: words
    type: text
  - key: group
    label: words
    type: text
  - key: S
    label: words
    type: quantity
    unit: MPa
    note: words
  - key: N
    label: words
    type: count
  - key: outcome
    label: words
    type: option
    options: fracture, runout
rows: |
  ж\u202eю,S [MPa],N,outcome
  ж\u202eю,400,100000,fracture
symbols:
  mean S: S_m
\`\`\`

\`\`\`table
id: tests
label: words
columns:
  - key: specimen
    label: words
    type: text
  - key: group
    label: words
    type: text
  - key: S
    label: words
    type: quantity
    unit: MPa
  - key: N
    label: words
    type: number
  - key: outcome
    label: words
    type: option
    options: fracture, runout
rows: |
  specimen,group,S / MPa,N,outcome
  ж\u202eю,ж\u202eя,450,90000,fracture
  ж\u202eю,ж\u202eя,420,180000,fracture
  \u202eжю,ж\u202eя,400,250000,fracture
  ж\u2067ю,ж\u2067я,380,600000,fracture
  ж\u202eя,ж\u2067я,360,900000,fracture
  ж\u202eя,ж\u2067я,340,900000,ж\u202eю
  ж\u202eя,ж\u2067я,ж\u202eю,900000,fracture
\`\`\`

\`\`\`fit
id: line
label: words
table: tests
symbols:
  A: A_1
  B: B_1
\`\`\`

\`\`\`figure
id: s-n
label: words
drawing: s-n
fit: line
\`\`\`

\`\`\`figure
id: residuals
label: words
drawing: residuals
fit: line
\`\`\`

\`\`\`figure
id: sweep
label: words
drawing: sweep
of: sigma_a
against: F
from: 200 N
to: 400 N
\`\`\`

\`\`\`figure
id: contour
label: words
drawing: sweep
of: W
against: F, d
from: 200 N, 6 mm
to: 400 N, 8 mm
note: words
\`\`\`

\`\`\`figure
id: budget
label: words
drawing: budget
of: sigma_a
\`\`\`

\`\`\`figure
id: nothing
label: words
drawing: words
\`\`\`

\`\`\`record
id: test
label: words
started: 2026-11-25T15:30:00+00:00
ended: 2026-11-25T18:30:00+00:00
outcome: suspended
why: words
counter_start: "0"
readings:
  - at: 2026-11-25T16:30:00+00:00
    counter: "100"
    note: words
watches:
  life: sigma_a
pauses:
  - from: 2026-11-25T16:40:00+00:00
    to: 2026-11-25T16:50:00+00:00
    why: words
note: words
\`\`\`

\`\`\`unknown
label: words
\`\`\`
`);
