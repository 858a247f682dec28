//! "300 ml vermouth *", and below the list "* for the vermouth: 20 g coffee beans in it for 12 hours, strain": how a part is made that
//! the list only names.

/// The text without its notes and the stars that point to them, and the notes.
pub(super) fn apart(text: &str) -> (String, Vec<String>) {
    let is_note = |line: &str| line.starts_with('*') && !line.starts_with("**");
    let points = |line: &str| !line.starts_with('*') && line.ends_with('*') && !line.ends_with("**");
    let lines = || text.lines().map(str::trim);
    let Some(at) = lines().position(points) else { return (text.to_owned(), Vec::new()) };
    let is_told = |n: usize, line: &str| n > at && is_note(line);
    let notes: Vec<String> = lines()
        .enumerate()
        .filter(|(n, line)| is_told(*n, line))
        .map(|(_, line)| line.trim_start_matches(['*', ' ']).to_owned())
        .collect();
    if notes.is_empty() {
        return (text.to_owned(), notes);
    }
    let kept = text.lines().enumerate().filter(|(n, line)| !is_told(*n, line.trim()));
    let kept: Vec<&str> = kept
        .map(|(_, line)| if points(line.trim()) { line.trim_end().trim_end_matches(['*', ' ']) } else { line })
        .collect();
    (kept.join("\n"), notes)
}
