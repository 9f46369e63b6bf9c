//! What the parser's errors mean to the person who wrote the file, and what to write instead.

use super::report::{Slice, excerpt};
use super::rules::YAML_UNREADABLE;
use super::yaml::too_deep;
use crate::finding::Finding;
use serde_yaml::granit_parser::ErrorKind;

/// A finding for the error `kind` at byte `at` of the piece.
pub(super) fn explain(kind: &ErrorKind, slice: &Slice, at: usize) -> Finding {
    use ErrorKind as E;
    let at = where_it_is(kind, slice, at.min(slice.text.len()));
    if matches!(kind, E::RecursionLimitExceeded) {
        return too_deep(slice, at);
    }
    let words = match kind {
        E::InvalidBlockScalarHeader
        | E::ZeroBlockScalarIndent
        | E::UnexpectedCharacter { .. }
        | E::MissingAnchorOrAliasName
        | E::DirectiveDisallowed
        | E::ExpectedTagBang
        | E::UndeclaredTagHandle
        | E::InvalidTagTerminator
        | E::MissingTagUri
        | E::UnclosedVerbatimTag
        | E::InvalidTagEscape
        | E::InvalidGlobalTagCharacter => sign_in_front(slice, at),
        E::MappingValueNotAllowed | E::InvalidColonPlacement | E::FlowMappingValueAdjacentCollection => {
            second_colon(slice, at)
        }
        E::TabNotAllowed
        | E::TabInBlockIndentation
        | E::TabInIndentation
        | E::TabInPlainScalar
        | E::TabAtBlockScalarStart => Words {
            message: "a tab is used to indent".to_owned(),
            label: "a tab on this line",
            fix: "indent with spaces, two for each level; most editors can turn tabs into spaces".to_owned(),
        },
        E::UnclosedFlowCollection { open } => unclosed(slice, at, *open),
        E::MismatchedFlowCollectionEnd { open, close } => Words {
            message: format!("‘{open}’ is closed by ‘{close}’"),
            label: "opened here",
            fix: format!("close it with ‘{}’ before the ‘{close}’", closing(*open)),
        },
        E::MisplacedFlowCollectionEnd => Words {
            message: "a bracket is closed that was not opened".to_owned(),
            label: "nothing to close",
            fix: "remove it, or open the bracket before it; text with brackets in it goes in quotes".to_owned(),
        },
        E::UnclosedQuotedScalar | E::DocumentIndicatorInQuotedScalar => Words {
            message: "a quote is opened and never closed".to_owned(),
            label: "opened here",
            fix: "close it at the end of the value; an apostrophe at the start of a text needs quotes around the whole"
                .to_owned(),
        },
        E::InvalidTrailingSingleQuotedScalar | E::InvalidTrailingDoubleQuotedScalar => Words {
            message: "text stands behind the closing quote".to_owned(),
            label: "not part of the quoted text",
            fix: "put the whole value in quotes; a single quote inside single quotes is written twice".to_owned(),
        },
        E::UnknownQuotedScalarEscape
        | E::InvalidQuotedScalarHexEscape
        | E::InvalidLowSurrogateHexEscape
        | E::InvalidLowSurrogate
        | E::MissingLowSurrogate
        | E::UnpairedLowSurrogate
        | E::InvalidUnicodeEscape => Words {
            message: "a backslash between double quotes begins a special sign, and this is none".to_owned(),
            label: "in this text",
            fix: "use single quotes, where a backslash is a backslash".to_owned(),
        },
        E::ExpectedFlowMappingSeparator | E::ExpectedFlowSequenceSeparator => separator(slice, at),
        E::BlockSequenceEntryNotAllowed
        | E::BlockEntryInFlowCollection
        | E::InvalidBlockEntryWhitespace
        | E::PlainScalarStartsWithDashFlowIndicator => Words {
            message: "a ‘-’ stands where no entry of a list can begin".to_owned(),
            label: "read as the start of a list's entry",
            fix: "write a list in brackets, [a, b]; a dash that is meant as text goes in quotes: '-'".to_owned(),
        },
        E::MappingKeyNotAllowed => Words {
            message: "a value can't begin with ‘? ’".to_owned(),
            label: "read as the start of a key",
            fix: "put the value in quotes".to_owned(),
        },
        E::SimpleKeyExpected
        | E::InvalidSimpleKey
        | E::ExpectedBlockMappingKey
        | E::ExpectedBlockSequenceEntry
        | E::ExpectedDocumentStart
        | E::InvalidIndentation
        | E::InvalidFlowScalarIndent
        | E::InvalidQuotedScalarIndent
        | E::InvalidBlockScalarIndent => misfit_line(slice, at),
        E::UnexpectedEofBlockMapping if slice.get(slice.character_at(at)) == "," => sign_in_front(slice, at),
        E::BomInsideDocument => Words {
            message: "an invisible byte order mark stands in the middle of the file".to_owned(),
            label: "here",
            fix: "delete the character and write the line anew".to_owned(),
        },
        _ => Words {
            message: "the values can't be read at this place".to_owned(),
            label: "reading stops here",
            fix: "compare with the lines around it: ‘key: value’, indented by spaces like its neighbours".to_owned(),
        },
    };
    Finding::new(&YAML_UNREADABLE, slice.place(slice.character_at(at)), words.message)
        .label(words.label)
        .figure(format!("the parser of YAML says: {kind}"))
        .fix(words.fix)
}

/// What to write where a value begins with `sign`, which YAML keeps for itself; `rest` comes behind it.
pub(super) fn instead_of_sign(sign: char, rest: &str) -> String {
    let quoted = if rest.is_empty() { format!("'{sign}'") } else { format!("'{sign} {}'", excerpt(rest)) };
    let compares = sign == '>' && rest.starts_with(|c: char| c.is_ascii_digit());
    if compares {
        format!("for a lower bound write ‘≥ {0}’ or ‘min {0}’; for text put it in quotes: {quoted}", excerpt(rest))
    } else {
        format!("put the value in quotes: {quoted}")
    }
}

/// Where the fault can be seen: for a tab the tab itself, which may stand a line below.
fn where_it_is(kind: &ErrorKind, slice: &Slice, at: usize) -> usize {
    use ErrorKind as E;
    let tab = matches!(
        kind,
        E::TabNotAllowed
            | E::TabInBlockIndentation
            | E::TabInIndentation
            | E::TabInPlainScalar
            | E::TabAtBlockScalarStart
    );
    let start = slice.line_around(at).start;
    if tab { slice.text.get(start..).and_then(|rest| rest.find('\t')).map_or(at, |tab| start + tab) } else { at }
}

struct Words {
    message: String,
    label: &'static str,
    fix: String,
}

fn sign_in_front(slice: &Slice, at: usize) -> Words {
    let sign = slice.text.get(at..).and_then(|rest| rest.chars().next()).unwrap_or(' ');
    if sign.is_control() || sign == ' ' {
        return Words {
            message: "a character that can't be seen stands here".to_owned(),
            label: "here",
            fix: "delete the line and write it anew".to_owned(),
        };
    }
    let line = slice.line_around(at);
    let rest = slice.get(at + sign.len_utf8()..line.end);
    let in_braces = slice.get(line.start..at).contains(['{', '[']);
    let end = if in_braces { rest.find([',', '}', ']']) } else { rest.find(" #") }.unwrap_or(rest.len());
    let rest = rest.get(..end).unwrap_or(rest).trim();
    Words {
        message: format!("a value can't begin with ‘{sign}’: YAML keeps that sign for itself"),
        label: "read as a sign of YAML",
        fix: instead_of_sign(sign, rest),
    }
}

fn second_colon(slice: &Slice, at: usize) -> Words {
    let line = slice.line_around(at);
    let written = slice.get(line.clone());
    let indent = written.len() - written.trim_start().len();
    let before = slice.get(line.start + indent..at);
    let Some(first) = before.find(": ") else {
        return Words {
            message: "this line is indented deeper than the one it belongs beside".to_owned(),
            label: "read as more of the value above",
            fix: "begin it in the same column as its neighbours; a key whose value stands on its own line has no further lines".to_owned(),
        };
    };
    let key = before.get(..first).unwrap_or("").trim_start_matches("- ");
    let value = written.get(indent + first + 2..).unwrap_or("").trim();
    if value.starts_with(['[', '{', '\'', '"']) {
        return Words {
            message: "a ‘:’ stands behind a bracket or quote that has closed".to_owned(),
            label: "the value has ended before this",
            fix: "put the whole value in quotes, or remove what follows the closing bracket or quote".to_owned(),
        };
    }
    Words {
        message: "a second ‘: ’ stands in one value".to_owned(),
        label: "no value can hold ‘: ’ without quotes",
        fix: format!("for a value with names in it write ‘{key}: {{{0}}}’; for text ‘{key}: '{0}'’", excerpt(value)),
    }
}

fn unclosed(slice: &Slice, at: usize, open: char) -> Words {
    let line = slice.line_around(at);
    let swallowed = slice.get(at..line.end).contains(" #");
    let close = closing(open);
    Words {
        message: format!("‘{open}’ is opened and never closed"),
        label: "opened here",
        fix: if swallowed {
            format!("‘ #’ begins a comment, so the ‘{close}’ behind it is not read: quote the text that holds the ‘#’")
        } else {
            format!("write the missing ‘{close}’ where the value ends")
        },
    }
}

fn separator(slice: &Slice, at: usize) -> Words {
    let rest = slice.get(at..slice.line_around(at).end);
    Words {
        message: "a comma or a closing bracket is missing".to_owned(),
        label: "before this",
        fix: if rest.starts_with(':') {
            "put the text in quotes if it holds a colon, and a comma between two values".to_owned()
        } else {
            "separate values in brackets with a comma and a space; text that holds commas, colons or brackets goes in quotes".to_owned()
        },
    }
}

fn misfit_line(slice: &Slice, at: usize) -> Words {
    let line = slice.line_around(at);
    let written = slice.get(line.clone()).trim();
    let message = "this line is neither ‘key: value’ nor part of the value above".to_owned();
    let label = "does not fit the lines around it";
    match written.split_once(':') {
        None => Words {
            message,
            label,
            fix: "write it as ‘key: value’; if it belongs to the text above, indent it or put the whole text in quotes"
                .to_owned(),
        },
        Some((key, value)) if !value.is_empty() && !value.starts_with(char::is_whitespace) => Words {
            message,
            label,
            fix: format!("put a space after the colon: ‘{}: {}’", excerpt(key), excerpt(value)),
        },
        Some(_) => Words {
            message: "this line is indented unlike its neighbours".to_owned(),
            label: "begins in another column",
            fix: "begin it in the same column as the lines it belongs beside".to_owned(),
        },
    }
}

fn closing(open: char) -> char {
    if open == '[' { ']' } else { '}' }
}
