//! The gauge as an instrument of the bench, with the jobs of the command line on its shelf.

use seamwright_core::input::Draft;
use seamwright_firmware::buttons::Event;
use seamwright_firmware::frame::Frame;
use seamwright_firmware::gauge::{Gauge, MOST_JOBS};

use super::Instrument;
use crate::failure::Failure;

/// Steps of a plan between two looks at the keyboard: some milliseconds.
const STEPS_AT_ONCE: u32 = 200;

impl Instrument for Gauge {
    fn handle(&mut self, event: Event) {
        Self::handle(self, event);
    }

    fn tick(&mut self, milliseconds: u64) {
        let _ = Self::tick(self, milliseconds);
    }

    fn draw(&mut self, frame: &mut Frame) {
        // A frame takes every pixel.
        let Ok(_) = Self::draw(self, frame);
    }

    fn think(&mut self) -> bool {
        for _ in 0..STEPS_AT_ONCE {
            if Self::think(self) {
                break;
            }
        }
        self.has_thoughts()
    }
}

/// A gauge with these jobs on its shelf, in this order, and its list pointing at the first. Each
/// comes with the path it was read from, for messages.
///
/// # Errors
/// Bad input: more jobs than the shelf takes, or two of one name, of which the shelf would keep one.
pub fn stocked(drafts: Vec<(String, Draft)>) -> Result<Gauge, Failure> {
    if drafts.len() > MOST_JOBS {
        return Err(Failure::input(
            format!(
                "{} jobs are given, and the gauge's shelf takes {MOST_JOBS}",
                drafts.len()
            ),
            format!("name {MOST_JOBS} job files or fewer"),
        ));
    }
    for (place, (path, draft)) in drafts.iter().enumerate() {
        let before = drafts.iter().take(place);
        if let Some((other, _)) = before.clone().find(|(_, known)| known.name == draft.name) {
            return Err(Failure::input(
                format!(
                    "`{other}` and `{path}` are both called \"{}\", and the gauge keeps one job of a name",
                    draft.name
                ),
                "leave one out, or change the name in one of them",
            ));
        }
    }
    let mut gauge = Gauge::new();
    let first = drafts.first().map(|(_, draft)| draft.clone());
    // The list points at what was kept last, so the first is kept once more, in its own place.
    for draft in drafts.into_iter().map(|(_, draft)| draft).chain(first) {
        if gauge.keep(&draft).is_err() {
            return Err(Failure::other("the gauge's shelf is full", ""));
        }
    }
    Ok(gauge)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostics::Source;
    use crate::job_file::JobFile;
    use seamwright_firmware::buttons::Button;
    use seamwright_firmware::gauge::Screen;

    /// Rinse tanks of these names.
    fn jobs(names: &[&str]) -> Vec<(String, Draft)> {
        let source = Source {
            name: "rinse.toml".to_owned(),
            text: include_str!("../../examples/rinse-tank.toml").to_owned(),
        };
        let draft = JobFile::read(source).unwrap().draft;
        let named = |name: &&str| {
            let name = (*name).try_into().unwrap();
            (
                format!("{name}.toml"),
                Draft {
                    name,
                    ..draft.clone()
                },
            )
        };
        names.iter().map(named).collect()
    }

    #[test]
    fn jobs_stand_in_order_and_the_first_is_chosen() {
        let mut gauge = stocked(jobs(&["one", "two", "three"])).unwrap();
        let names: Vec<_> = gauge.names().collect();
        assert_eq!(names, ["one", "two", "three"]);

        let mut chosen = Frame::new();
        Instrument::draw(&mut gauge, &mut chosen);
        gauge.handle(Event::Press(Button::Up));
        let mut top = Frame::new();
        Instrument::draw(&mut gauge, &mut top);
        assert_eq!(chosen, top, "up from the first line stays there");
    }

    #[test]
    fn as_many_jobs_as_the_shelf_takes() {
        let names = ["1", "2", "3", "4", "5", "6", "7"];
        assert_eq!(stocked(jobs(&names[..6])).unwrap().count(), MOST_JOBS);
        let failure = stocked(jobs(&names)).unwrap_err();
        assert_eq!(failure.exit_code(), 2);
        let text = failure.to_string();
        assert!(
            text.contains("7 jobs") && text.contains("takes 6"),
            "{text}"
        );
    }

    #[test]
    fn two_jobs_of_one_name_are_refused() {
        let failure = stocked(jobs(&["one", "two", "one"])).unwrap_err();
        assert_eq!(failure.exit_code(), 2);
        assert!(
            failure.to_string().contains("both called \"one\""),
            "{failure}"
        );
    }

    #[test]
    fn no_job_at_all_shows_how_to_start() {
        assert_eq!(stocked(Vec::new()).unwrap().screen(), Screen::Jobs);
    }
}
