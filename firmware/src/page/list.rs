//! What is made of the list of pages: a name and a place for each, and whatever is done to one of them or to all.

/// Takes the list: of each page what it shows, its name, its module, and the type of its state on a gauge of the kind
/// `K`.
macro_rules! pages {
    ($(
        $(#[$says:meta])+
        $name:ident => $module:ident: $state:ty;
    )+) => {
        /// A page of a job, in the order of the work.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[cfg_attr(feature = "defmt", derive(defmt::Format))]
        pub enum Page {
            $( $(#[$says])+ $name, )+
        }

        impl Page {
            /// Every page, in order.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// Its name on a gauge that has it.
            const fn name_on<K: Kind>(self) -> &'static str {
                match self {
                    $( Self::$name => <$state as IsPage>::NAME, )+
                }
            }

            /// Whether a gauge of this kind has it.
            const fn is_on<K: Kind>(self) -> bool {
                match self {
                    $( Self::$name => <$state as IsPage>::IS_THERE, )+
                }
            }
        }

        /// The state of every page that a gauge of this kind has.
        #[derive(Debug)]
        pub struct Pages<K: Kind> {
            $( $(#[$says])+ pub $module: $state, )+
        }

        impl<K: Kind> Pages<K> {
            /// Before a job is opened.
            pub(crate) const NEW: Self = Self {
                $( $module: IsPage::NEW, )+
            };

            /// A job is opened; `another` tells that it is not the one of before.
            pub(crate) fn start(&mut self, tank: &Tank, another: bool) {
                $( start(&mut self.$module, tank, another); )+
            }

            /// Draws one.
            pub(crate) fn draw<D>(
                &self,
                page: Page,
                pen: &mut Pen<'_, D>,
                work: &Work<'_>,
            ) -> Result<(), D::Error>
            where
                D: DrawTarget<Color = Gray4>,
            {
                match page {
                    $( Page::$name => self.$module.draw(pen, work), )+
                }
            }

            /// Up or down on one.
            pub(crate) fn step(&mut self, page: Page, step: Step, work: &mut Work<'_>) {
                match page {
                    $( Page::$name => self.$module.step(step, work), )+
                }
            }

            /// The middle button on one.
            pub(crate) fn select(&mut self, page: Page, work: &mut Work<'_>) -> Turn {
                match page {
                    $( Page::$name => self.$module.select(work), )+
                }
            }

            /// One is shown.
            pub(crate) fn prepare(&mut self, page: Page, tank: &Tank) {
                match page {
                    $( Page::$name => self.$module.prepare(tank), )+
                }
            }

            /// How far one is with its slow work.
            pub(crate) fn progress(&self, page: Page, tank: &Tank) -> Option<Progress> {
                match page {
                    $( Page::$name => self.$module.progress(tank), )+
                }
            }

            /// One works out a piece more.
            pub(crate) fn work_on(&mut self, page: Page, tank: &Tank) {
                match page {
                    $( Page::$name => self.$module.work_on(tank), )+
                }
            }

            /// Tells all of them the time, and whether the picture of the one `shown` may have changed.
            pub(crate) fn tick(&mut self, shown: Option<Page>, clock: u64) -> bool {
                let mut told = false;
                $( told |= self.$module.tick(clock) && shown == Some(Page::$name); )+
                told
            }

            /// Whether the order of the stitches must stay as it is.
            pub(crate) fn hold_order(&self) -> bool {
                false $( || self.$module.holds_order() )+
            }
        }
    };
}

pub(super) use pages;
