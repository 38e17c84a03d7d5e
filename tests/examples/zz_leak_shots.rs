use seamwright::job_file::JobFile;
use seamwright_firmware::amount::Units;
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::Frame;
use seamwright_firmware::gauge::{Gauge, Screen};
use seamwright_firmware::page::Page;
fn main() {
    let args: Vec<String> = std::env::args().collect();
    let job = JobFile::open(&args[1]).unwrap().draft;
    let out = &args[2];
    let script = &args[3];
    if script == "@" {
        let frames: Vec<Frame> = seamwright::shots::every_screen(&job)
            .into_iter()
            .filter(|s| {
                ["set-up", "filler", "mass", "strength"]
                    .iter()
                    .any(|n| s.name.contains(n))
            })
            .map(|s| s.frame)
            .collect();
        return sheet(&frames, out);
    }
    if let Some(rest) = script.strip_prefix('@') {
        let mut g = Gauge::new();
        if args.len() > 4 {
            g.set_units(Units::Inch);
        }
        g.keep(&job).unwrap();
        g.handle(Event::Press(Button::Select));
        let mut frames = vec![];
        loop {
            let Screen::Page(p) = g.screen() else { break };
            if rest.split(',').any(|n| n == p.name()) {
                for _ in 0..14 {
                    for _ in 0..12 {
                        let mut frame = Frame::new();
                        let faults = g.draw(&mut frame).unwrap();
                        if faults != Default::default() {
                            println!("{:?} at {}", faults, frames.len());
                        }
                        if frames.iter().rev().take(12).any(|f| *f == frame) {
                            break;
                        }
                        frames.push(frame);
                        g.handle(Event::Press(Button::Select));
                    }
                    g.handle(Event::Press(Button::Down));
                }
            }
            if p == Page::Notices {
                break;
            }
            g.handle(Event::Press(Button::Right));
        }
        return sheet(&frames, out);
    }
    let mut gauge = Gauge::new();
    if args.len() > 4 {
        gauge.set_units(Units::Inch);
    }
    gauge.keep(&job).unwrap();
    gauge.handle(Event::Press(Button::Select));
    while gauge.screen() != Screen::Page(Page::Leak) {
        gauge.handle(Event::Press(Button::Right));
    }
    let mut frames: Vec<Frame> = vec![];
    let shot = |g: &Gauge, f: &mut Vec<Frame>| {
        let mut frame = Frame::new();
        let faults = g.draw(&mut frame).unwrap();
        if faults != Default::default() {
            println!("{:?} at {}", faults, f.len());
        }
        f.push(frame);
    };
    shot(&gauge, &mut frames);
    let mut now = 0u64;
    gauge.tick(0);
    for c in script.chars() {
        match c {
            's' => gauge.handle(Event::Press(Button::Select)),
            'u' => gauge.handle(Event::Press(Button::Up)),
            'd' => gauge.handle(Event::Press(Button::Down)),
            'U' => gauge.handle(Event::Repeat(Button::Up)),
            'D' => gauge.handle(Event::Repeat(Button::Down)),
            't' => {
                now += 60_000;
                gauge.tick(now);
            }
            _ => continue,
        }
        shot(&gauge, &mut frames);
    }
    sheet(&frames, out);
}
fn sheet(frames: &[Frame], out: &str) {
    let cols = 6usize;
    let sc = 2usize;
    let (w, h) = (128 * sc + 6, 64 * sc + 6);
    let rows = frames.len().div_ceil(cols);
    let (tw, th) = (cols * w, rows * h);
    let mut px = vec![60u8; tw * th];
    for (i, f) in frames.iter().enumerate() {
        let (ox, oy) = ((i % cols) * w + 3, (i / cols) * h + 3);
        for y in 0..64 * sc {
            for x in 0..128 * sc {
                px[(oy + y) * tw + ox + x] =
                    f.level((x / sc) as u32, (y / sc) as u32).unwrap() * 17;
            }
        }
    }
    let mut e = png::Encoder::new(std::fs::File::create(out).unwrap(), tw as u32, th as u32);
    e.set_color(png::ColorType::Grayscale);
    e.set_depth(png::BitDepth::Eight);
    e.write_header().unwrap().write_image_data(&px).unwrap();
}
