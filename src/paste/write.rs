//! A draft as the text of a card.

use crate::input::quoted;

use super::draft::{Draft, DraftLine, DraftStage, Remark};

pub(super) fn card(draft: &Draft) -> String {
    let mut out = String::new();
    let name = match &draft.name {
        Some(name) => DraftLine::text("name", name),
        None => DraftLine::text("name", "Pasted recipe").with(Remark::Assumed("the text has no title".to_owned())),
    };
    put(&name, &mut out);
    lines(&draft.keys, &mut out);
    lines(&draft.last.keys, &mut out);
    put(&DraftLine::text("source", draft.source.as_deref().unwrap_or("pasted recipe")), &mut out);
    steps(&draft.steps, &mut out);
    for stage in &draft.stages {
        out.push_str("\n[[stage]]\n");
        put(&DraftLine::text("name", stage.name.as_deref().unwrap_or("stage")), &mut out);
        lines(&stage.keys, &mut out);
        steps(&stage.steps, &mut out);
        table("stage.loss", &stage.loss, &mut out);
        parts("stage.parts", stage, &mut out);
    }
    table("\ntarget", &draft.targets, &mut out);
    out.push('\n');
    parts("parts", &draft.last, &mut out);
    table("\nloss", &draft.last.loss, &mut out);
    table("\nmeasured", &draft.measured, &mut out);
    table("\nkeep", &draft.keep, &mut out);
    out
}

fn lines(lines: &[DraftLine], out: &mut String) {
    lines.iter().for_each(|line| put(line, out));
}

/// A heading with what stands under it; remarks alone stand without one.
fn table(name: &str, of: &[DraftLine], out: &mut String) {
    if of.is_empty() {
        return;
    }
    let (gap, name) = name.strip_prefix('\n').map_or(("", name), |name| ("\n", name));
    out.push_str(gap);
    if of.iter().any(|line| !line.toml.is_empty()) {
        out.push_str(&format!("[{name}]\n"));
    }
    lines(of, out);
}

fn parts(name: &str, stage: &DraftStage, out: &mut String) {
    out.push_str(&format!("[{name}]\n"));
    for part in &stage.parts {
        put(&part.line(part.amount.as_deref().unwrap_or("as needed")), out);
    }
    lines(&stage.asked, out);
}

fn steps(steps: &[String], out: &mut String) {
    if steps.is_empty() {
        return;
    }
    out.push_str("steps = [\n");
    for step in steps {
        out.push_str(&format!("  {},\n", quoted(step)));
    }
    out.push_str("]\n");
}

fn put(line: &DraftLine, out: &mut String) {
    out.push_str(&line.toml);
    let remarks: Vec<String> = line
        .remarks
        .iter()
        .map(|remark| match remark {
            Remark::Assumed(said) => format!("assumed: {said}"),
            Remark::Question(asked) => format!("? {asked}"),
            Remark::Unknown(said) => format!("! {said}"),
            Remark::Said(said) => said.clone(),
        })
        .collect();
    if !remarks.is_empty() {
        let gap = if line.toml.is_empty() { "" } else { "  " };
        out.push_str(&format!("{gap}# {}", remarks.join("; ")));
    }
    out.push('\n');
}
