//! What the sheet itself says, in English and Spanish, each phrase beside its translation.
//!
//! Places to fill are written `{ $name }`. Spanish is "usted", for a household; trade words as on North American sites.

/// The language of a sheet.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default)]
pub enum Language {
    /// US English.
    #[default]
    En,
    /// Spanish as spoken in North America.
    Es,
}

impl Language {
    /// Both.
    pub const ALL: [Self; 2] = [Self::En, Self::Es];
    /// Its tag, as "en".
    pub const fn tag(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::Es => "es",
        }
    }
    /// The language of a tag.
    pub fn of_tag(tag: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|l| l.tag() == tag)
    }
}

/// Something the sheet says.
#[derive(Clone, Copy, Debug)]
pub struct Phrase {
    /// Its id.
    pub id: &'static str,
    /// In English.
    pub en: &'static str,
    /// In Spanish.
    pub es: &'static str,
}

impl Phrase {
    /// In a language.
    pub const fn said(self, language: Language) -> &'static str {
        match language {
            Language::En => self.en,
            Language::Es => self.es,
        }
    }
    /// In a language, with its places filled.
    pub fn with(self, language: Language, places: &[(&str, &str)]) -> String {
        let mut said = String::new();
        let mut rest = self.said(language);
        // One pass, so that a text that looks like a place is left as it is.
        while let Some((before, after)) = rest.split_once("{ $") {
            said.push_str(before);
            let Some((name, tail)) = after.split_once(" }") else {
                said.push_str("{ $");
                rest = after;
                continue;
            };
            said.push_str(places.iter().find(|(place, _)| *place == name).map_or("", |(_, text)| *text));
            rest = tail;
        }
        said.push_str(rest);
        said
    }
}

macro_rules! phrases {
    ($($name:ident $id:literal $en:literal $es:literal)*) => {
        $(pub(crate) const $name: Phrase = Phrase { id: $id, en: $en, es: $es };)*
        /// Every phrase, in the order of the page.
        pub const ALL: &[Phrase] = &[$($name),*];
    };
}

phrases! {
    TITLE "sheet-title"
        "Before our visit: { $house }"
        "Antes de nuestra visita: { $house }"
    INTRO "sheet-intro"
        "These questions help us plan the work around your household, and price less of it by guessing. Most take one tick."
        "Estas preguntas nos ayudan a planear la obra de acuerdo con su hogar y a calcular menos a ciegas. En la mayoría basta una marca."
    INTRO_FREE "sheet-intro-free"
        "“We are not sure” is a good answer. Leave out what you would rather not say; we go through the rest at your table."
        "«No estamos seguros» es una buena respuesta. Deje en blanco lo que prefiera no decir; el resto lo vemos en su mesa."
    INTRO_SCREEN "sheet-intro-screen"
        "This page sends nothing and keeps nothing. When you are done, press “Save my answers” at the end: a small file is made on your device. You send it to us yourself."
        "Esta página no envía ni guarda nada. Al terminar, oprima «Guardar mis respuestas» al final: se crea un archivo pequeño en su aparato. Usted mismo nos lo manda."
    INTRO_PAPER "sheet-intro-paper"
        "On paper: tick the boxes, write on the lines, and give us the sheet when we come, or send a picture of it."
        "En papel: marque los cuadros, escriba en las líneas y denos la hoja cuando lleguemos, o mándenos una foto de ella."
    NO_SCRIPT "sheet-no-script"
        "Shown like this, the page can only be read and printed. To fill it in on a screen, save the file and open it in a web browser."
        "Así como se ve ahora, la página solo se puede leer e imprimir. Para llenarla en pantalla, guarde el archivo y ábralo en un navegador."
    FROM "sheet-from"
        "From { $firm }"
        "De { $firm }"
    PLAN "sheet-plan"
        "What we understand is planned"
        "Lo que entendemos que se planea"
    PLAN_NONE "sheet-plan-none"
        "Nothing is noted yet. Tell us at the table what you have in mind."
        "Todavía no hay nada anotado. Díganos en la mesa lo que tiene pensado."
    PLAN_WRONG "sheet-plan-wrong"
        "If something is missing or wrong, write it at the end."
        "Si algo falta o está mal, escríbalo al final."
    HOUSE "sheet-section-house"
        "The house"
        "La casa"
    PEOPLE "sheet-section-people"
        "The people at home"
        "Las personas de la casa"
    WORK "sheet-section-work"
        "While we work"
        "Mientras trabajamos"
    LATER "sheet-section-later"
        "Later wishes"
        "Deseos para después"
    LATER_WHY "sheet-later-why"
        "While walls and floors are open, getting ready for a later wish costs a fraction of what it costs afterward. The sums are rough ranges from experience, not offers."
        "Con paredes y pisos abiertos, prepararse para un deseo futuro cuesta una fracción de lo que cuesta después. Los montos son rangos aproximados por experiencia, no ofertas."
    NUMBER "sheet-question-number"
        "Question { $number }"
        "Pregunta { $number }"
    SEVERAL "sheet-several"
        "Tick all that fit."
        "Marque todo lo que corresponda."
    UNSURE "sheet-unsure"
        "We are not sure"
        "No estamos seguros"
    YEAR "sheet-number"
        "Number or year"
        "Número o año"
    RANGE "sheet-number-range"
        "Please write a number from { $least } to { $most }."
        "Escriba por favor un número de { $least } a { $most }."
    ZERO "sheet-zero"
        "{ $words } (0)"
        "{ $words } (0)"
    OWN_WORDS "sheet-own-words"
        "In your own words, if you like"
        "En sus palabras, si gusta"
    CLEAR "sheet-clear"
        "Take this answer back"
        "Quitar esta respuesta"
    PICTURE_HELPS "sheet-picture-helps"
        "A picture helps here."
        "Una foto ayuda aquí."
    WHY "sheet-why"
        "Why we ask: { $why }"
        "Por qué preguntamos: { $why }"
    OFFICE "sheet-office-code"
        "Office: { $item }"
        "Oficina: { $item }"
    WISH_NOW "sheet-wish-now"
        "now { $low } to { $high }"
        "ahora de { $low } a { $high }"
    WISH_LATER "sheet-wish-later"
        "later { $low } to { $high }"
        "después de { $low } a { $high }"
    OFF "sheet-off"
        "What may be off, and when"
        "Qué puede faltar y cuándo"
    OFF_FIRST "sheet-off-first"
        "Before the visit this is a first idea, from the plan alone. We work it out with you at the table and agree the days before anything is turned off."
        "Antes de la visita esto es una primera idea, sacada solo del plan. Lo vemos con usted en la mesa y acordamos los días antes de cortar cualquier cosa."
    OFF_UNKNOWN "sheet-off-unknown"
        "The plan is not noted yet, so we cannot say what will be off. We bring it to the table."
        "El plan todavía no está anotado, así que no podemos decir qué faltará. Lo llevamos a la mesa."
    OFF_NOTHING "sheet-off-nothing"
        "Nothing that we know of from the plan so far. The visit may show otherwise."
        "Nada que sepamos por el plan hasta ahora. La visita puede mostrar otra cosa."
    OFF_WHAT "sheet-off-what"
        "What"
        "Qué"
    OFF_TASK "sheet-off-task"
        "While this is done"
        "Mientras se hace esto"
    OFF_LONG "sheet-off-long"
        "How long"
        "Cuánto tiempo"
    OFF_HELP "sheet-off-help"
        "What helps"
        "Qué ayuda"
    HOURS "sheet-hours"
        "{ $low } to { $high } hours, most likely { $likely }"
        "de { $low } a { $high } horas, lo más probable { $likely }"
    DAYS "sheet-days"
        "{ $low } to { $high } days, most likely { $likely }"
        "de { $low } a { $high } días, lo más probable { $likely }"
    OFF_DAYS "sheet-off-days"
        "On which working day, counted from the first"
        "En qué día de trabajo, contado desde el primero"
    ON_DAY "sheet-on-day"
        "day { $day }"
        "día { $day }"
    ON_DAYS "sheet-on-days"
        "days { $first } to { $last }"
        "días { $first } a { $last }"
    LIKELY "sheet-likely"
        "likely: { $days }"
        "probable: { $days }"
    POSSIBLE "sheet-possible"
        "possible: { $days }"
        "posible: { $days }"
    LOUD "sheet-loud"
        "quiet (loud work)"
        "silencio (trabajo ruidoso)"
    RULES "sheet-rules"
        "How we work in a house where people live"
        "Cómo trabajamos en una casa habitada"
    DECIDES "sheet-decides"
        "This is a plan, not a promise of dates. A licensed plumber, electrician and gas fitter decide when water, power and gas go off and come back; the utility and the inspector set their own dates; local code governs."
        "Esto es un plan, no una promesa de fechas. Un plomero, un electricista y un instalador de gas con licencia deciden cuándo se cortan y vuelven el agua, la luz y el gas; la compañía de servicios y el inspector fijan sus propias fechas; rige el código local."
    PICTURES "sheet-pictures"
        "Pictures you may take"
        "Fotos que puede tomar"
    PICTURES_HOW "sheet-pictures-how"
        "Only of what is in sight from where you stand. Leave the electrical panel, covers, plates and gas connections shut, and move nothing heavy: we look at them, and what must be opened a licensed person opens."
        "Solo de lo que se ve desde donde usted está. Deje cerrados el panel eléctrico, las tapas, las placas y las conexiones de gas, y no mueva nada pesado: nosotros los vemos, y lo que haya que abrir lo abre una persona con licencia."
    PICTURES_SEND "sheet-pictures-send"
        "Send them along with your answers. Phone pictures say where they were taken; we take that out of every copy we pass on."
        "Mándelas junto con sus respuestas. Las fotos del teléfono dicen dónde se tomaron; nosotros quitamos eso de cada copia que pasamos a otros."
    VIEW_ROOM "sheet-view-room"
        "The whole kitchen or bath from two opposite corners"
        "Toda la cocina o el baño desde dos esquinas opuestas"
    VIEW_SINK "sheet-view-sink"
        "Under the sink with the cabinet doors open and the things taken out: pipes and shut-offs in one picture"
        "Debajo del fregadero, con las puertas abiertas y las cosas afuera: tubos y llaves en una sola foto"
    VIEW_SOFFIT "sheet-view-soffit"
        "The boxed-in part above the cabinets, from across the room"
        "La parte encajonada arriba de los gabinetes, desde el otro lado del cuarto"
    VIEW_CEILING "sheet-view-ceiling"
        "The ceiling below the bath or laundry, all of it"
        "El techo debajo del baño o la lavandería, completo"
    VIEW_FOR "sheet-view-for"
        "For questions { $numbers }, where it says that a picture helps"
        "Para las preguntas { $numbers }, donde dice que una foto ayuda"
    FINISH "sheet-finish"
        "To finish"
        "Para terminar"
    ANYTHING "sheet-anything"
        "Anything else we should know?"
        "¿Algo más que debamos saber?"
    WHO "sheet-who"
        "Who filled this in (if you like)"
        "Quién llenó esta hoja (si gusta)"
    SAVE "sheet-save"
        "Save my answers"
        "Guardar mis respuestas"
    PRINT "sheet-print"
        "Print"
        "Imprimir"
    REOPEN "sheet-reopen"
        "Go on from a file you saved earlier"
        "Seguir desde un archivo que guardó antes"
    COUNT "sheet-count"
        "{ $done } of { $all } answered"
        "{ $done } de { $all } contestadas"
    SAVED "sheet-saved"
        "Saved as { $file }, where your browser keeps downloads. Nothing has been sent: please send us that file. You may go on and save again."
        "Se guardó como { $file }, donde su navegador deja las descargas. No se ha enviado nada: mándenos ese archivo. Puede seguir y guardar otra vez."
    LOOK_AGAIN "sheet-look-again"
        "Please look at question { $number } again: { $what }"
        "Revise por favor la pregunta { $number }: { $what }"
    REOPENED "sheet-reopened"
        "Your earlier answers are back in the page."
        "Sus respuestas anteriores están de nuevo en la página."
    NOT_OURS "sheet-not-ours"
        "This file does not hold answers to this sheet. Nothing was changed."
        "Este archivo no contiene respuestas de esta hoja. No se cambió nada."
    PRIVACY "sheet-privacy"
        "Your answers are for our office, to plan and price your work. What you say about health or about who lives here is there to plan dust, noise and days without water or power."
        "Sus respuestas son para nuestra oficina, para planear y calcular su obra. Lo que diga sobre la salud o sobre quién vive aquí sirve para planear el polvo, el ruido y los días sin agua o sin luz."
    WATER "off-water" "water" "agua"
    POWER "off-power" "power" "luz"
    INTERNET "off-internet" "internet" "internet"
    GAS "off-gas" "gas" "gas"
    HEAT "off-heat" "heat" "calefacción"
    COOLING "off-cooling" "cooling" "aire acondicionado"
    KITCHEN_DRAIN "off-kitchen-drain" "kitchen drain" "desagüe de la cocina"
    DRAINS "off-all-drains-above" "all drains above" "todos los desagües de arriba"
    BATH "off-bath" "bath" "baño"
    KITCHEN "off-kitchen" "kitchen" "cocina"
    ACCESS "off-access" "access to rooms" "paso a los cuartos"
    QUIET "off-quiet" "quiet" "silencio"
    WELL "off-water-well-pump" "water (well pump)" "agua (bomba de pozo)"
    PUMPS "off-sump-or-sewage-pump" "sump or sewage pump" "bomba de sumidero o de aguas negras"
    WHOLE_POWER "off-power-whole-house" "power, whole house" "luz, toda la casa"
}

#[cfg(test)]
mod tests {
    use super::*;

    fn places(text: &str) -> Vec<&str> {
        let mut found: Vec<&str> =
            text.split("{ $").skip(1).filter_map(|t| t.split_once(" }").map(|p| p.0)).collect();
        found.sort_unstable();
        found
    }

    #[test]
    fn every_phrase_is_said_in_both_languages_with_the_same_places() {
        for phrase in ALL {
            assert!(!phrase.en.is_empty() && !phrase.es.is_empty(), "{}", phrase.id);
            assert_eq!(places(phrase.en), places(phrase.es), "{}", phrase.id);
            assert!(!places(phrase.en).contains(&"") && !phrase.en.contains("{$"), "{}", phrase.id);
        }
        let mut ids: Vec<&str> = ALL.iter().map(|p| p.id).collect();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), ALL.len(), "an id twice");
    }

    #[test]
    fn what_is_filled_in_is_not_filled_again() {
        let said = TITLE.with(Language::En, &[("house", "{ $house } and { $firm }")]);
        assert_eq!(said, "Before our visit: { $house } and { $firm }");
        assert_eq!(TITLE.with(Language::Es, &[]), "Antes de nuestra visita: ");
    }

    #[test]
    fn nothing_is_called_safe() {
        for phrase in ALL {
            for text in [phrase.en.to_lowercase(), phrase.es.to_lowercase()] {
                for word in ["safe", "compliant", "clear to", "seguro que", "sin peligro"] {
                    assert!(!text.contains(word), "{}: {word}", phrase.id);
                }
            }
        }
    }
}
