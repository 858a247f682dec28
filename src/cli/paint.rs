//! Diagnostics, painted under the lines they speak of.

use std::collections::HashMap;
use std::sync::Arc;

use annotate_snippets::{AnnotationKind, Group, Level, Patch, Renderer, Snippet};

use crate::diagnostic::{Diagnostic, Severity, Span, once, tamed};

use super::open;

/// All of them, one below the other, with colour for `anstream` to keep or take out.
pub(crate) fn all(diagnostics: &[Diagnostic]) -> String {
    let mut texts: HashMap<Arc<str>, Arc<str>> = HashMap::new();
    let renderer = Renderer::styled();
    let mut painted = String::new();
    for diagnostic in once(diagnostics) {
        let text = diagnostic.file.as_ref().map(|file| {
            let read = || open::text_of(file).unwrap_or_default();
            Arc::clone(texts.entry(Arc::clone(file)).or_insert_with(read))
        });
        painted.push_str(&one(&tame(diagnostic), text.as_deref(), &renderer));
        painted.push_str("\n\n");
    }
    painted
}

/// Words that may hold a name from a file or from the command line, fit for a terminal; the renderer tames the lines of
/// the file itself.
fn tame(diagnostic: &Diagnostic) -> Diagnostic {
    let mut tame = diagnostic.clone();
    let labels = tame.labels.iter_mut().map(|label| &mut label.text);
    for words in labels.chain([&mut tame.title]).chain(&mut tame.help) {
        *words = tamed(words).into_owned();
    }
    tame
}

fn one(diagnostic: &Diagnostic, text: Option<&str>, renderer: &Renderer) -> String {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Note => Level::NOTE,
    };
    let title = level.primary_title(diagnostic.title.as_str()).id(diagnostic.code.as_str());
    let file = diagnostic.file.as_deref().unwrap_or("");
    let inside = |span: &Span, text: &str| text.get(span.start..span.end).is_some();
    let labels =
        text.map(|text| (text, diagnostic.labels.iter().filter(|l| inside(&l.span, text)).collect::<Vec<_>>()));
    let mut body = match labels.filter(|(_, labels)| !labels.is_empty()) {
        Some((text, labels)) => {
            let kinds = std::iter::once(AnnotationKind::Primary).chain(std::iter::repeat(AnnotationKind::Context));
            let near = Window::round(text, labels.iter().map(|label| label.span));
            let notes = labels.into_iter().zip(kinds);
            let notes = notes.map(|(l, kind)| kind.span(near.range(l.span)).label(l.text.as_str()));
            title.element(Snippet::source(near.text).line_start(near.line).path(file).annotations(notes))
        }
        None => Group::with_title(title),
    };
    let fix = diagnostic.fix.as_ref().zip(text).filter(|((span, _), text)| inside(span, text));
    let mut groups = Vec::new();
    match (&diagnostic.help, fix) {
        (Some(help), Some(((span, with), text))) => {
            let near = Window::round(text, std::iter::once(*span));
            let patch = Patch::new(near.range(*span), with.as_str());
            let patch = Snippet::source(near.text).line_start(near.line).path(file).patch(patch);
            groups.push(Level::HELP.secondary_title(help.as_str()).element(patch));
        }
        (Some(help), None) => body = body.element(Level::HELP.message(help.as_str())),
        (None, _) => {}
    }
    groups.insert(0, body);
    renderer.render(&groups).to_string()
}

/// The lines of a text that a finding speaks of, with one on each side: the renderer reads all that it is given, for each finding again.
struct Window<'t> {
    text: &'t str,
    /// The number of its first line.
    line: usize,
    /// Where it begins, in bytes.
    from: usize,
}

impl<'t> Window<'t> {
    fn round(text: &'t str, spans: impl Iterator<Item = Span> + Clone) -> Self {
        let first = spans.clone().map(|span| span.start).min().unwrap_or_default();
        let last = spans.map(|span| span.end).max().unwrap_or_default();
        let mut ends_before = text.get(..first).unwrap_or_default().rmatch_indices('\n').map(|(at, _)| at);
        let from = ends_before.nth(1).map_or(0, |at| at + 1);
        let mut ends_behind = text.get(last..).unwrap_or_default().match_indices('\n').map(|(at, _)| last + at);
        let to = ends_behind.nth(1).map_or(text.len(), |at| at + 1);
        let line = 1 + text.as_bytes().iter().take(from).filter(|byte| **byte == b'\n').count();
        Self { text: text.get(from..to).unwrap_or(text), line, from }
    }

    /// Where a span of the whole text stands in it.
    fn range(&self, span: Span) -> std::ops::Range<usize> {
        span.start - self.from..span.end - self.from
    }
}
