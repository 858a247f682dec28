//! Pages that read and print without a script. Whatever a person typed is text on them and nothing else.

pub(crate) mod card;
pub(crate) mod recall;

use crate::diagnostic::is_unruly;

/// A text in which nothing is a mark of the page: of HTML, of an attribute, of SVG. What moves the cursor or turns the
/// text round it is shown as a sign that something is there.
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\n' | '\t' => out.push(' '),
            c => out.push(ruly(c)),
        }
    }
    out
}

/// A letter, or a sign in the place of what moves the cursor or turns the text round it.
pub(crate) fn ruly(c: char) -> char {
    let turns = matches!(c, '\u{200e}' | '\u{200f}' | '\u{61c}' | '\u{fffe}' | '\u{ffff}');
    if is_unruly(c) || turns { '\u{fffd}' } else { c }
}

/// Black on white, for a screen and for paper.
const STYLE: &str = "\
body{font:15px/1.4 system-ui,sans-serif;color:#000;background:#fff;max-width:52rem;margin:1rem auto;padding:0 1rem}\
h1{font-size:1.5rem;margin:.2em 0}h2{font-size:1.1rem;margin:1.2em 0 .3em;border-bottom:1px solid #000}\
table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.2em .6em .2em 0;\
border-bottom:1px solid #bbb}td{overflow-wrap:break-word;max-width:38rem}\
@media(max-width:40rem){td{overflow-wrap:anywhere}}\
.stop{font-size:2.2rem;font-weight:bold;line-height:1.1;border:.2rem solid #000;padding:.3rem}\
.strong{font-weight:bold}ul.tick{list-style:none;padding:0}ul.tick li{padding-left:1.6em;text-indent:-1.6em}\
ul.tick li::before{content:\"\\2610\\00a0\\00a0\"}@page{margin:12mm}\
@media print{body{max-width:none;margin:0;padding:0;font-size:10pt}tr,li{break-inside:avoid}h2{break-after:avoid}}";

/// A whole page. `body` is markup already.
fn page(title: &str, body: &str) -> String {
    // No script, no picture, nothing from elsewhere: a browser is told so as well.
    format!(
        "<!DOCTYPE html>\n<!-- a page of stillroom -->\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n\
         <title>{}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n{body}</body>\n</html>\n",
        escaped(title)
    )
}

/// A row of cells that are escaped here.
fn row(tag: &str, cells: &[String]) -> String {
    let cells: String = cells.iter().map(|cell| format!("<{tag}>{}</{tag}>", escaped(cell))).collect();
    format!("<tr>{cells}</tr>\n")
}

fn table(head: &[&str], rows: &[Vec<String>]) -> String {
    let head: Vec<String> = head.iter().map(|cell| (*cell).to_owned()).collect();
    let rows: String = rows.iter().map(|cells| row("td", cells)).collect();
    format!("<table>\n<thead>{}</thead>\n<tbody>\n{rows}</tbody>\n</table>\n", row("th", &head))
}
