//! A page as SVG 1.1 text, the same bytes for the same page.
//!
//! Coordinates are written to a hundredth of a point. Scenes keep their text twin as the panel's
//! description, so that a reader without eyes finds it.

use fit_view::picture::{Item, Panel, Picture, Rect};
use fit_view::scene::{Anchor, Ink, Mark, Path, Pen, Theme, Weight, Width};
use std::fmt::Write as _;

/// Size of the halo that keeps labels readable over lines, in parts of the text's size.
const HALO: f64 = 0.28;

/// The page as SVG.
pub fn svg(picture: &Picture) -> String {
    let mut out = String::new();
    let (w, h) = (number(picture.width), number(picture.height));
    line(
        &mut out,
        0,
        &format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" \
         viewBox=\"0 0 {w} {h}\" font-family=\"Open Sans, Noto Sans, sans-serif\">"
        ),
    );
    line(&mut out, 1, &format!("<title>{}</title>", escaped(&picture.title)));
    let page = picture.theme.colour(Ink::Page).hex();
    line(&mut out, 1, &format!("<rect width=\"{w}\" height=\"{h}\" fill=\"{page}\"/>"));
    for (index, item) in picture.leaves().into_iter().enumerate() {
        write_item(&mut out, picture.theme, index, item);
    }
    out.push_str("</svg>\n");
    out
}

fn write_item(out: &mut String, theme: Theme, index: usize, item: &Item) {
    match item {
        // its leaves are written one by one
        Item::Part { .. } => {}
        Item::Box { frame, fill, rule, corner } => {
            let stroke = rule.map_or(String::new(), |(ink, width)| {
                format!(
                    " stroke=\"{}\" stroke-width=\"{}\"",
                    theme.colour(ink).hex(),
                    number(width)
                )
            });
            let fill = theme.colour(*fill).hex();
            line(
                out,
                1,
                &format!(
                    "<rect {} rx=\"{}\" fill=\"{fill}\"{stroke}/>",
                    rect(frame),
                    number(*corner)
                ),
            );
        }
        Item::Panel(panel) => write_panel(out, theme, index, panel),
        Item::Text { at, align, text, size, ink, weight } => {
            let style = TextStyle { anchor: *align, size: *size, ink: *ink, weight: *weight };
            line(out, 1, &text_element(theme, (at.x, at.y), text, &style, None));
        }
    }
}

fn write_panel(out: &mut String, theme: Theme, index: usize, panel: &Panel) {
    let frame = &panel.frame;
    let clip = format!("frame-{index}");
    line(out, 1, &format!("<clipPath id=\"{clip}\"><rect {} rx=\"8\"/></clipPath>", rect(frame)));
    line(out, 1, &format!("<g clip-path=\"url(#{clip})\">"));
    if !panel.scene.twin.is_empty() {
        line(out, 2, &format!("<desc>{}</desc>", escaped(&panel.scene.twin.join("\n"))));
    }
    for layer in &panel.scene.layers {
        line(out, 2, &format!("<g class=\"{}\">", layer.name.id()));
        for mark in &layer.marks {
            line(out, 3, &mark_element(theme, panel, mark));
        }
        line(out, 2, "</g>");
    }
    line(out, 1, "</g>");
}

fn mark_element(theme: Theme, panel: &Panel, mark: &Mark) -> String {
    match mark {
        Mark::Stroke { path, pen } => {
            format!(
                "<path d=\"{}\"{}/>",
                path_data(panel, path),
                stroke(theme, pen, panel.points_per_mm)
            )
        }
        Mark::Fill { path, ink, opacity } => {
            let colour = theme.colour(*ink).hex();
            let see_through = opacity_attribute("fill-opacity", *opacity);
            format!(
                "<path d=\"{}Z\" fill=\"{colour}\"{see_through}/>",
                path_data(panel, path).trim_end_matches('Z')
            )
        }
        Mark::Text { at, anchor, text, size, ink, weight } => {
            let at = panel.page_from_scene(*at);
            let style = TextStyle { anchor: *anchor, size: *size, ink: *ink, weight: *weight };
            text_element(theme, (at.x, at.y), text, &style, Some(Ink::Ground))
        }
    }
}

fn path_data(panel: &Panel, path: &Path) -> String {
    let mut data = String::new();
    for (i, point) in path.points.iter().enumerate() {
        let p = panel.page_from_scene(*point);
        let pen = if i == 0 { 'M' } else { 'L' };
        let _ = write!(data, "{pen}{} {}", number(p.x), number(p.y));
    }
    if path.closed {
        data.push('Z');
    }
    data
}

fn stroke(theme: Theme, pen: &Pen, points_per_mm: f64) -> String {
    let width = match pen.width {
        Width::Points(points) => points,
        Width::Mm(mm) => mm * points_per_mm,
    };
    let mut out = format!(
        " fill=\"none\" stroke=\"{}\" stroke-width=\"{}\" stroke-linecap=\"round\" stroke-linejoin=\"round\"",
        theme.colour(pen.ink).hex(),
        number(width)
    );
    let pattern: Vec<String> = pen.dash.pattern().iter().map(|part| number(part * width)).collect();
    if !pattern.is_empty() {
        let _ = write!(out, " stroke-dasharray=\"{}\"", pattern.join(" "));
    }
    out + &opacity_attribute("stroke-opacity", pen.opacity)
}

fn opacity_attribute(name: &str, opacity: f64) -> String {
    if opacity >= 1.0 { String::new() } else { format!(" {name}=\"{}\"", number(opacity)) }
}

struct TextStyle {
    anchor: Anchor,
    size: f64,
    ink: Ink,
    weight: Weight,
}

/// A text with its middle line at the point; with a halo in the ink of its ground where it may
/// stand over lines.
fn text_element(
    theme: Theme,
    (x, y): (f64, f64),
    text: &str,
    style: &TextStyle,
    halo: Option<Ink>,
) -> String {
    /// half the height of a capital letter of Open Sans (1462 of 2048 units), in text sizes
    const MIDDLE: f64 = 0.357;
    let anchor = match style.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let weight = match style.weight {
        Weight::Regular => 400,
        Weight::SemiBold => 600,
    };
    let place = format!(
        "x=\"{}\" y=\"{}\" font-size=\"{}\" font-weight=\"{weight}\" text-anchor=\"{anchor}\"",
        number(x),
        number(y + MIDDLE * style.size),
        number(style.size)
    );
    let (text, colour) = (escaped(text), theme.colour(style.ink).hex());
    let front = format!("<text {place} fill=\"{colour}\">{text}</text>");
    match halo {
        None => front,
        Some(ground) => {
            let ground = theme.colour(ground).hex();
            let width = number(HALO * style.size);
            format!(
                "<text {place} fill=\"{ground}\" stroke=\"{ground}\" stroke-width=\"{width}\" \
                 stroke-linejoin=\"round\" stroke-opacity=\"0.9\" aria-hidden=\"true\">{text}</text>{front}"
            )
        }
    }
}

fn rect(frame: &Rect) -> String {
    format!(
        "x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"",
        number(frame.x),
        number(frame.y),
        number(frame.width),
        number(frame.height)
    )
}

/// A coordinate to a hundredth of a point, without trailing zeros and never as −0.
fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    let short = text.trim_end_matches('0').trim_end_matches('.');
    if short == "-0" { "0".into() } else { short.into() }
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // signs that XML 1.0 cannot hold
            c if c.is_control() && c != '\n' && c != '\t' => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}

fn line(out: &mut String, depth: usize, text: &str) {
    out.extend(core::iter::repeat_n(' ', depth));
    out.push_str(text);
    out.push('\n');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_never_minus_zero() {
        assert_eq!(number(12.0), "12");
        assert_eq!(number(12.3456), "12.35");
        assert_eq!(number(-0.001), "0");
        assert_eq!(number(-1.5), "-1.5");
        assert_eq!(number(100.0), "100");
    }

    #[test]
    fn texts_cannot_break_out_of_their_element() {
        assert_eq!(escaped("<b>&\"\u{0}"), "&lt;b&gt;&amp;&quot;\u{fffd}");
    }
}
