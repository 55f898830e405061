// Twin of the tables in events/fold.py: what kinds of event say of a thing. Part of the fold twin.

// The field that takes the whole body, 'field=key' where it takes one key of the body; null where
// each key of the body is a field.
export const FIELD_KINDS: Record<string, string | null> = {
  'part.added.v1': null,
  'part.described.v1': null,
  'place.added.v1': null,
  'place.described.v1': null,
  'offcut.added.v1': null,
  'offcut.described.v1': null,
  'finding.opened.v1': null,
  'tag.printed.v1': null,
  'steps.set.v1': 'steps',
  'line.set.v1': 'line',
  'line.segments.v1': null,
  'offcut.reserved.v1': 'reserved',
  'piece.wanted.v1': null,
  'piece.described.v1': null,
  'piece.met.v1': 'met=part',
};
// The kind that says what sort of thing its subject is.
export const SORTS: Record<string, string> = {
  'part.added.v1': 'part',
  'line.set.v1': 'line',
  'place.added.v1': 'place',
  'offcut.added.v1': 'offcut',
  'tag.printed.v1': 'tags',
  'finding.opened.v1': 'finding',
  'piece.wanted.v1': 'wanted',
};
// A card shows this many of the sums kept with a thing, the latest; its facts hold them all.
export const MOST_SUMS = 50;
