//! Rules about a procedure's text.

use crate::finding::{Explanation, Rule, Severity};

/// An act where no work is done.
pub static ACT_OUTSIDE_STEP: Rule = Rule {
    name: "act-outside-step",
    severity: Severity::Error,
    summary: "An act stands in the introduction, a heading, a footnote or a picture's words.",
    explanation: Explanation {
        finds: "A link such as `[…](torque:nut)` before the first step, in a heading, in a footnote or in the alternative text of a picture. Acts belong into the text of a step.",
        matters: "The order of the acts in the steps is the order of work, and each becomes a line to tick. An act in a heading or a footnote has no place in that order and no line on the sheet: the work would be neither done nor checked.",
        may_be_wrong: "To mention a thing without work, write its name as plain words, or point to the step with `see:`.",
        example: "## [Torque the nut](torque:pinion-nut) {#nut}",
        instead: "## Torque the nut {#nut}\n\n[Torque the nut](torque:pinion-nut).",
    },
};

/// A space in a link's address.
pub static ADDRESS_WITH_SPACE: Rule = Rule {
    name: "address-with-space",
    severity: Severity::Error,
    summary: "A space in a link's or picture's address keeps it from being one.",
    explanation: Explanation {
        finds: "`[words](address)` or `![words](path)` that is not read as a link or picture, mostly because there is a space in its round brackets or the closing one is missing.",
        matters: "Markdown prints such a link as plain text and says nothing. The act is then missing from the sheet: no line to tick, no torque value beside it.",
        may_be_wrong: "When square and round brackets stand side by side in the text on purpose: write `\\]` for the bracket.",
        example: "[Torque the nut](torque: pinion-nut)",
        instead: "[Torque the nut](torque:pinion-nut)",
    },
};

/// Two steps with one id.
pub static DOUBLED_ID: Rule = Rule {
    name: "doubled-id",
    severity: Severity::Error,
    summary: "Two steps of a procedure have the same id, or two footnotes the same name.",
    explanation: Explanation {
        finds: "A step whose `{#id}` another step of the same procedure has already, and a footnote defined twice.",
        matters: "Other procedures send the mechanic to a step by its id, and an open item is finished in one. With two of them it is chance which one is meant.",
        may_be_wrong: "Never: give the later one its own id.",
        example: "## Inner seal {#seal}\n\n## Outer seal {#seal}",
        instead: "## Inner seal {#inner-seal}\n\n## Outer seal {#outer-seal}",
    },
};

/// A mark that points to no footnote.
pub static FOOTNOTE_MISSING: Rule = Rule {
    name: "footnote-missing",
    severity: Severity::Error,
    summary: "A mark points to a footnote that is not there.",
    explanation: Explanation {
        finds: "`[^name]` in the text without a line `[^name]: …` in the same file.",
        matters: "A mark promises an exception or a condition. A mechanic who can't find it works without it.",
        may_be_wrong: "When the brackets are meant as text: write `\\[^`.",
        example: "Press it in flush[^1].",
        instead: "Press it in flush[^1].\n\n[^1]: On the early housing 0.5 mm below.",
    },
};

/// A heading that can't stand where it does.
pub static HEADING_OUT_OF_PLACE: Rule = Rule {
    name: "heading-out-of-place",
    severity: Severity::Error,
    summary: "A level-1 heading, or a step's heading inside a list or quote.",
    explanation: Explanation {
        finds: "A heading of level 1 (the title stands in the front matter), and a heading of level 2 within a list or a block quote, where it can't open a step.",
        matters: "A page with two titles has two names on the bench, and a step that does not open leaves its acts to the step before, with that step's variants and hold points.",
        may_be_wrong: "Never: use `##` for a step and `###` below it.",
        example: "# Pinion height",
        instead: "title: Pinion height (in the front matter)",
    },
};

/// HTML in the text.
pub static HTML_NOT_LET_THROUGH: Rule = Rule {
    name: "html-not-let-through",
    severity: Severity::Error,
    summary: "HTML in a procedure's text is shown as text, not as what it does.",
    explanation: Explanation {
        finds: "HTML tags and comments in a procedure's text. They are printed as the characters they consist of.",
        matters: "A manual has to print the same on paper, on the phone and without the net, and nothing in it may run. A comment meant for authors would also stand on the sheet.",
        may_be_wrong: "A pressed-together `<x>` may be meant as text: write `&lt;x&gt;`, or put it between backticks.",
        example: "Torque to <b>24</b> <!-- check! -->",
        instead: "[Torque to its value](torque:cap-bolt)",
    },
};

/// An address that a manual does not follow.
pub static LINK_NOT_LET_THROUGH: Rule = Rule {
    name: "link-not-let-through",
    severity: Severity::Error,
    summary: "A link's address is one that a manual does not follow.",
    explanation: Explanation {
        finds: "Addresses that run something or carry content (`javascript:`, `vbscript:`, `data:`, `file:`), and addresses that are neither a full web address, a mail address, a place on this page (`#…`), an act nor a cross-link. Their words stay as plain text.",
        matters: "A file path works on the author's computer only, and a script in a manual is nobody's wish. Cross-links are written `see:`, so that they are checked and printed with a page to turn to.",
        may_be_wrong: "Never for scripts. For another procedure write `see:PROCEDURE` or `see:PROCEDURE#STEP`.",
        example: "[the backlash](pinion-height.md#backlash)",
        instead: "[the backlash](see:pinion-height#backlash)",
    },
};

/// A link that leads nowhere.
pub static LINK_WITHOUT_ADDRESS: Rule = Rule {
    name: "link-without-address",
    severity: Severity::Error,
    summary: "A link has no address, or one that is defined nowhere.",
    explanation: Explanation {
        finds: "`[words]()` with nothing between the round brackets, and `[words][name]` without a line `[name]: address` in the same file.",
        matters: "What was meant as an act is printed as plain words: the work is on no line of the sheet.",
        may_be_wrong: "When square brackets are meant as text: write `\\[`.",
        example: "[Torque the nut][nut]",
        instead: "[Torque the nut](torque:pinion-nut)",
    },
};

/// A link that says nothing.
pub static LINK_WITHOUT_WORDS: Rule = Rule {
    name: "link-without-words",
    severity: Severity::Error,
    summary: "A link has no words, or an act is written as a bare address.",
    explanation: Explanation {
        finds: "`[](torque:nut)`, and acts written `<torque:nut>`.",
        matters: "The words of a link are the instruction on the line to tick. A line without words, or with an id for words, tells the mechanic nothing.",
        may_be_wrong: "Never. A web address in angle brackets (`<https://…>`) is an ordinary link and fine.",
        example: "<torque:pinion-nut>",
        instead: "[Torque the pinion nut](torque:pinion-nut)",
    },
};

/// A warning that is not set as one.
pub static SIGNAL_WORD_NOT_BOLD: Rule = Rule {
    name: "signal-word-not-bold",
    severity: Severity::Warning,
    summary: "A block quote opens with a signal word that is not in bold capitals, so it is no safety notice.",
    explanation: Explanation {
        finds: "A block quote that opens with danger, warning, caution or notice in another dress than `**WARNING**`: not bold, not in capitals, with other words in the bold, or misspelt, `**CAUTON**`.",
        matters: "Only the bold signal word of ANSI Z535.6 and ISO 3864-2 makes the panel that stands before the act on page and sheet. Without it the warning is a grey quotation.",
        may_be_wrong: "When the quote really is a quotation that begins with that word: begin it otherwise.",
        example: "> Warning: the carrier is hot.",
        instead: "> **WARNING** The carrier is hot enough to burn. Wear the gloves.",
    },
};

/// A key in a step's braces that means nothing.
pub static STEP_ATTRIBUTE_UNKNOWN: Rule = Rule {
    name: "step-attribute-unknown",
    severity: Severity::Error,
    summary: "The braces of a heading hold something that means nothing.",
    explanation: Explanation {
        finds: "A key other than `time`, `at` and `for` in a step's braces, a class (`.word`), a key without a value, a second id, or braces on a heading below level 2.",
        matters: "`fro=shaft-L` would be passed over, and the step for the long shaft would stand on every sheet.",
        may_be_wrong: "Never: there are three keys.",
        example: "## Fit the spacer {#spacer fro=shaft-L}",
        instead: "## Fit the spacer {#spacer for=shaft-L}",
    },
};

/// Braces that don't survive.
pub static STEP_BRACES_BROKEN: Rule = Rule {
    name: "step-braces-broken",
    severity: Severity::Error,
    summary: "The braces of a heading are broken by a space or a quote, not closed, or not at its end.",
    explanation: Explanation {
        finds: "Braces on a heading that are not closed, have words after them, or hold quotes or a space within a value.",
        matters: "Markdown splits braces at every space and keeps quotes as they are, so that `time=10 min` becomes a time of 10 and a stray word, and one wrong sign loses the step's id.",
        may_be_wrong: "When braces are meant as text in a heading: use round brackets.",
        example: "## Fit the carrier {#carrier time=10 min}",
        instead: "## Fit the carrier {#carrier time=10min}",
    },
};

/// A step without an id.
pub static STEP_ID_MISSING: Rule = Rule {
    name: "step-id-missing",
    severity: Severity::Error,
    summary: "A step has no id.",
    explanation: Explanation {
        finds: "A heading of level 2 without `{#id}`. It also finds a line of text with `---` directly below it, which Markdown takes for such a heading.",
        matters: "Cross-links, open items, change notes and ticks saved on a phone hold on to the id. A number would move with every step put in before it, and a tick would land on other work.",
        may_be_wrong: "When a line across the page was meant: put an empty line before the `---`.",
        example: "## Fit the carrier",
        instead: "## Fit the carrier {#carrier}",
    },
};

/// A cell that a table has no column for.
pub static TABLE_CELL_LOST: Rule = Rule {
    name: "table-cell-lost",
    severity: Severity::Error,
    summary: "A row of a table has more cells than its head, and the rest is dropped.",
    explanation: Explanation {
        finds: "A row with more cells than the table's head has columns. Markdown drops what is over.",
        matters: "The value in the dropped cell is not on the page, and nothing shows that it was ever there.",
        may_be_wrong: "When a `|` is meant as text: write `\\|`.",
        example: "| Bolt | Torque |\n| --- | --- |\n| M8 | 24 N·m | dry |",
        instead: "| Bolt | Torque | Threads |\n| --- | --- | --- |\n| M8 | 24 N·m | dry |",
    },
};
