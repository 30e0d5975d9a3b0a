/** Class lists as they come: from a spreadsheet, a learning platform or typed, in any writing. */
import { describe, expect, it, test } from 'vitest';
import { readClassList } from '../../../src/sheet/index.ts';

function teamsOf(text: string): readonly string[] {
  const list = readClassList(text);
  return list.ok ? list.value.teams.map(({ team, names }) => (names === '' ? team : `${team}: ${names}`)) : [list.problem.what];
}

function notesOf(text: string): string {
  const list = readClassList(text);
  return list.ok ? list.value.notes.join(' ') : list.problem.what;
}

describe('a class list', () => {
  test.each([
    ['a team a line', 'T1\nT2\n', ['T1', 'T2']],
    ['teams of several words', 'Team 1\nTeam 2', ['Team 1', 'Team 2']],
    ['semicolons, with commas in the names', 'T1; Ada, Ben\nT2; Cem', ['T1: Ada, Ben', 'T2: Cem']],
    ['commas', 'T1,Ada,Ben\r\nT2,Cem,\r\n', ['T1: Ada, Ben', 'T2: Cem']],
    ['tabs, as a spreadsheet copies', 'Team\tNames\nT1\tAda\nT2\tBen', ['T1: Ada', 'T2: Ben']],
    ['a member a line', 'team;name\nT1;Ada\nT2;Ben\nT1;Cem', ['T1: Ada, Cem', 'T2: Ben']],
    ['columns in another order, others between', 'last name,first name,id,Group\nLovelace,Ada,77,T1\nBabbage,Ben,78,T1', ['T1: Ada Lovelace, Ben Babbage']],
    ['quotes with the sign inside', '"T1; the first";"Ada ""A"" L."\nT2;Ben', ['T1; the first: Ada "A" L.', 'T2: Ben']],
    ['line ends inside a field', 'T1;"Ada\nBen"\nT2;Cem', ['T1: Ada Ben', 'T2: Cem']],
    ['a mark of the byte order', '\ufeffteam;name\nT1;Ada', ['T1: Ada']],
    ['a head in another language', 'Gruppe;Vorname;Nachname\nG1;Jörg;Müller', ['G1: Jörg Müller']],
    ['names alone, each a team', 'name\nAda\nBen', ['Ada', 'Ben']],
    ['old line ends', 'T1;Ada\rT2;Ben\r', ['T1: Ada', 'T2: Ben']],
    ['any writing', 'команда;имена\nΟμάδα α;Ωμέγα\nफ़;क्‍ष\n第一班;試験\nفريق;عمر\n🙂;𝒜', ['Ομάδα α: Ωμέγα', 'फ़: क्‍ष'.normalize('NFC'), '第一班: 試験', 'فريق: عمر', '🙂: 𝒜']],
  ])('%s', (_title, text, teams) => expect(teamsOf(text)).toEqual(teams));

  it('says what looks like a slip', () => {
    expect(notesOf('T1;Ada\nt1 ;Ben\nT2;Cem\nT2;Cem')).toBe('“T1” and “t1” are taken for one team. Cem stands twice in the team “T2”, and is named once. In several lines, whose names are put together: T1 (2), T2 (2).');
    expect(notesOf('team;name\nT1;Ada\n;Ben')).toBe('Line 3 names no team and is left out: Ben.');
    expect(notesOf('T\u200b1;Ada\nT1;Ben')).toContain('Signs that nobody sees were left out of the list. In several lines');
    expect(teamsOf('T\u202e1;Ada\nT1;Ben')).toEqual(['T1: Ada, Ben']);
    expect(notesOf('team;mail\nT1;x')).toBe('Not used: the column mail.');
    expect(notesOf('name;mail\nAda;x')).toBe('No column is one of teams: every name is a team of its own. Not used: the column mail.');
    expect(notesOf(`T1;${'a'.repeat(200)}`)).toBe('A name in line 1 has 200 letters: the first 100 are taken.');
    expect(notesOf('T1;"Ada\nT2;Ben')).toContain('never closed');
    expect(notesOf('\ufeffT1;Ada\r\n\r\n  \r\nT2;Ben')).toBe('');
  });

  it('refuses what is none', () => {
    for (const text of ['', ' \n\t\n', ';;\n;', '\u200b']) expect(teamsOf(text)).toEqual(['The class list names no team.']);
    expect(teamsOf(Array.from({ length: 501 }, (_none, i) => `T${i}`).join('\n'))).toEqual(['The class list has 501 teams, and 500 is the most.']);
    expect(teamsOf('x'.repeat(1_000_001))[0]).toContain('1 million');
  });
});
