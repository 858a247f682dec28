//! What holds gas.

use crate::spelling::words;
use crate::vocabulary::{Kind, Tag};

use super::{Ingredient, Larder};

impl Ingredient {
    /// Whether it sparkles: by its tag, or where a wine, or what nobody has said the kind of, is called as something of the
    /// embedded larder that does ("house prosecco").
    pub(crate) fn is_carbonated(&self) -> bool {
        let is_tagged = |of: &Self| of.tags.iter().any(|tag| *tag == Tag::Carbonated);
        let called = |name: &str| -> bool {
            let words = words(name);
            (0..words.len()).any(|at| {
                let spans = (at + 1..=words.len()).filter_map(|end| Some((words.get(at..end)?.join(" "), end)));
                let mut found = spans.filter_map(|(span, end)| Some((Larder::built_in().find(&span)?, end)));
                // a tonic syrup is a syrup; a prosecco stays one with its brand behind it
                found.any(|(of, end)| is_tagged(of) && (of.kind == Some(Kind::Wine) || end == words.len()))
            })
        };
        let may_be = matches!(self.kind, None | Some(Kind::Wine | Kind::Soda | Kind::Beer | Kind::Cider));
        is_tagged(self) || may_be && self.own_names().any(called)
    }
}
