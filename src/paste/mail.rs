//! What a mail has round a recipe: who writes to whom, a greeting, a name at its end.

use super::clean::PastedLine;
use super::words::WordList;

/// A greeting, or a name below a mail, has so many words at the most (ours).
const MOST_WORDS: usize = 4;

/// The lines without those of a mail. Its subject is what the recipe is called.
pub(super) fn without_mail(mut lines: Vec<PastedLine>) -> Vec<PastedLine> {
    let headers = lines.iter().take_while(|line| header(&line.text).is_some()).count();
    if headers > 1 {
        let subject = lines.iter().take(headers).filter_map(|line| header(&line.text)).find_map(subject);
        let title = subject.map(|text| PastedLine { text, numbered: false, heading: true });
        lines = title.into_iter().chain(lines.into_iter().skip(headers)).collect();
    }
    let is_short = |text: &str| text.split(' ').count() <= MOST_WORDS && !text.contains(|c: char| c.is_numeric());
    let greets = |line: &PastedLine| {
        let first = line.text.split([' ', ',', '!']).next().unwrap_or_default();
        WordList::Greeting.has(first) && is_short(&line.text) && line.text.ends_with([',', '!'])
    };
    if let Some(at) = lines.iter().take(2).position(greets) {
        lines.remove(at);
    }
    let is_signed = |line: &PastedLine| {
        WordList::SignedOff.at_the_start(&line.text) && is_short(&line.text)
            || WordList::SentFrom.at_the_start(&line.text)
    };
    // behind it stand names, and nothing that has an amount
    let ends = |at: &usize| {
        let behind = lines.get(at + 1..).unwrap_or_default();
        lines.get(*at).is_some_and(is_signed) && behind.iter().all(|line| is_short(&line.text) || is_signed(line))
    };
    if let Some(at) = (1..lines.len()).find(ends) {
        lines.truncate(at);
    }
    lines
}

/// "Subject: Re: ginger syrup": the word in front of the colon, and what stands behind it.
fn header(text: &str) -> Option<(&str, &str)> {
    let (word, value) = text.split_once(':')?;
    WordList::MailHeader.has(word.trim()).then_some((word.trim(), value.trim()))
}

fn subject((word, value): (&str, &str)) -> Option<String> {
    let mut value = value;
    while let Some((_, rest)) = value.split_once(':').filter(|(again, _)| WordList::Answers.has(again)) {
        value = rest.trim();
    }
    (WordList::MailSubject.has(word) && !value.is_empty()).then(|| value.to_owned())
}
