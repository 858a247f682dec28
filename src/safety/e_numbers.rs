//! Additives by their numbers, which are the same in every language (Regulation (EC) No 1333/2008): "E250", "E 250", "E-250". In the table of
//! names each stands in one word; "limone e 250" of Italian is none.

use crate::spelling::NameWord;

/// What stands in front of a number, folded.
pub(super) const LETTER: &str = "e";

/// The numbers that a name has in two pieces, in one word each.
pub(super) fn joined(name: &str, words: &[NameWord]) -> Vec<NameWord> {
    let is_part = |c: char| c.is_alphanumeric();
    let pieces: Vec<&str> = name.split(|c: char| !is_part(c)).filter(|piece| !piece.is_empty()).collect();
    let is_number = |piece: &str| {
        let digits = piece.trim_end_matches(|c: char| c.is_ascii_alphabetic());
        (3..=4).contains(&digits.len()) && digits.chars().all(|c| c.is_ascii_digit()) && piece.len() <= digits.len() + 1
    };
    let is_denied = |number: &str| words.iter().any(|word| word.denied && (word.text == LETTER || word.text == number));
    pieces
        .windows(2)
        .filter_map(|pair| match pair {
            ["E", number] if is_number(number) => {
                Some(NameWord { text: format!("e{}", number.to_lowercase()), denied: is_denied(number) })
            }
            _ => None,
        })
        .collect()
}
