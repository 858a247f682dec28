//! Diagnostics, painted under the lines they speak of.

use std::collections::HashMap;
use std::sync::Arc;

use annotate_snippets::{AnnotationKind, Group, Level, Patch, Renderer, Snippet};

use crate::diagnostic::tamed;
use crate::diagnostic::{Diagnostic, Severity};

use super::open;

/// All of them, one below the other, with colour for `anstream` to keep or take out.
pub(crate) fn all(diagnostics: &[Diagnostic]) -> String {
    let mut texts: HashMap<Arc<str>, Arc<str>> = HashMap::new();
    let renderer = Renderer::styled();
    let mut painted = String::new();
    for diagnostic in diagnostics {
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
    let mut group = level.primary_title(diagnostic.title.as_str()).id(diagnostic.code.as_str());
    let file = diagnostic.file.as_deref().unwrap_or("");
    let inside = |start: usize, end: usize, text: &str| start <= end && text.get(start..end).is_some();
    let mut groups: Vec<Group<'_>> = Vec::new();
    let mut first = None;
    if let Some(text) = text {
        let labels: Vec<_> = diagnostic.labels.iter().filter(|l| inside(l.span.start, l.span.end, text)).collect();
        if !labels.is_empty() {
            let mut snippet = Snippet::source(text).path(file);
            for (i, label) in labels.iter().enumerate() {
                let kind = if i == 0 { AnnotationKind::Primary } else { AnnotationKind::Context };
                snippet = snippet.annotation(kind.span(label.span.start..label.span.end).label(label.text.as_str()));
            }
            first = Some(snippet);
        }
    }
    let mut body = match first {
        Some(snippet) => group.element(snippet),
        None => {
            if !file.is_empty() {
                group = group.clone();
            }
            Group::with_title(group)
        }
    };
    let fix = diagnostic.fix.as_ref().zip(text).filter(|((span, _), text)| inside(span.start, span.end, text));
    match (&diagnostic.help, fix) {
        (Some(help), Some(((span, with), text))) => {
            groups.push(
                Level::HELP
                    .secondary_title(help.as_str())
                    .element(Snippet::source(text).path(file).patch(Patch::new(span.start..span.end, with.as_str()))),
            );
        }
        (Some(help), None) => body = body.element(Level::HELP.message(help.as_str())),
        (None, _) => {}
    }
    groups.insert(0, body);
    renderer.render(&groups).to_string()
}
