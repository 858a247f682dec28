//! A recipe as people write it, as a card: plain text or the cells of a spreadsheet in, the text of a card out. What was not
//! understood stays in it as a remark with a question, what was taken for granted as a remark on its line.
//!
//! ```
//! use stillroom::house::House;
//! use stillroom::paste::paste;
//!
//! let pasted = paste("Lime sherbet\n250 ml lime juice\n450g white sugar\n3 glugs of rum\n", &House::default());
//! assert!(pasted.card.contains("\"lime juice\" = \"250 ml\""));
//! assert_eq!(pasted.questions.len(), 1);
//! ```

mod alike;
mod already_in;
mod amount_in_step;
mod amounts;
mod beside;
mod boiled_as_far_as;
mod boiled_down;
mod changed_in_step;
mod clean;
mod columns;
mod degrees;
mod diluted;
mod double;
mod draft;
mod drink;
mod each;
mod filled;
mod footnotes;
mod half_of_it;
mod heading;
mod heated;
mod heated_parts;
mod how_many;
mod in_turn;
mod keys;
mod life_told;
mod made_apart;
mod made_hot;
mod mail;
mod method;
mod more_in_step;
mod multiplied;
mod named_in_step;
mod names;
mod number_behind;
mod of_fruit;
mod of_many_drinks;
mod of_nobody;
mod off_heat;
mod one_in_other;
mod one_line;
mod ordinary;
mod packed_or_long;
mod pan;
mod part;
mod parted;
mod peeled;
mod percents;
mod pipes;
mod pressed;
mod put_in;
mod put_in_behind;
mod putting;
mod ratio;
mod read;
mod roasted;
mod sentence;
mod served;
mod set_apart;
mod share;
mod sharing;
mod sheet;
mod size_alone;
mod speaks;
mod spices_alone;
mod spoken;
mod spoons;
mod strained;
mod strains;
mod strength;
mod syrup_behind;
mod taken_out;
mod title;
mod unknown_in_step;
mod unstrained;
mod untold;
mod waited;
mod whole;
mod whole_fruit;
mod words;
mod write;
mod yields;

use crate::house::House;

use draft::{Draft, DraftLine, Remark};

pub(crate) use boiled_as_far_as::{boils, minutes_told};
pub(crate) use heated::hot_clauses;
pub(crate) use life_told::life_told;
pub(crate) use made_hot::{burns, heats_solids, is_called_boiled};
pub(crate) use method::places_told;
pub(crate) use pan::{Pan, called, calls_hot, heated_and_added};
pub(crate) use pressed::pressed;
pub(crate) use put_in_behind::{put_in_behind, put_in_behind_each, stage_told};
pub use spoken::{Unsaid, text};
pub(crate) use unstrained::{held_to_steps, in_order, late_parts};
pub(crate) use untold::untold;

/// What became of a pasted recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pasted {
    /// The text of the card.
    pub card: String,
    /// What it asks, in the order of the card.
    pub questions: Vec<String>,
    /// What was taken for granted.
    pub assumed: Vec<String>,
}

/// A card from a recipe as people write it. Any text gives one.
pub fn paste(text: &str, house: &House) -> Pasted {
    let draft = read::read(text, house);
    let (mut questions, mut assumed) = (Vec::new(), Vec::new());
    if draft.name.is_none() {
        assumed.push("the text has no title".to_owned());
    }
    for remark in remarks(&draft) {
        match remark {
            Remark::Question(asked) | Remark::Unknown(asked) => questions.push(asked),
            Remark::Assumed(said) => assumed.push(said),
            Remark::Said(_) => {}
        }
    }
    Pasted { card: write::card(&draft), questions, assumed }
}

fn remarks(draft: &Draft) -> Vec<Remark> {
    let mut all = Vec::new();
    let mut of_lines = |lines: &[DraftLine]| all.extend(lines.iter().flat_map(|line| line.remarks.clone()));
    of_lines(&draft.keys);
    of_lines(&draft.targets);
    of_lines(&draft.keep);
    of_lines(&draft.measured);
    for stage in draft.stages.iter().chain([&draft.last]) {
        of_lines(&stage.keys);
        of_lines(&stage.loss);
        of_lines(&stage.asked);
    }
    let parts = draft.stages.iter().chain([&draft.last]).flat_map(|stage| &stage.parts);
    all.extend(parts.flat_map(|part| part.remarks.clone()));
    all
}
