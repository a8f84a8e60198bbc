// Generated from checks/messages.toml and its catalogue: change these, then run `python -m checks.generate`.

export const VERDICTS = {
  "pass": {
    "word": "Bestanden",
    "meaning": "Innerhalb des Grenzwerts; die Messunsicherheit ist so berücksichtigt, wie es die Entscheidungsregel verlangt."
  },
  "conditional_pass": {
    "word": "Bedingt bestanden",
    "meaning": "Innerhalb des Grenzwerts, aber um weniger als die Messunsicherheit: nicht nachgewiesen."
  },
  "conditional_fail": {
    "word": "Bedingt nicht bestanden",
    "meaning": "Außerhalb des Grenzwerts, aber um weniger als die Messunsicherheit: nicht nachgewiesen."
  },
  "fail": {
    "word": "Nicht bestanden",
    "meaning": "Außerhalb dessen, was die Entscheidungsregel zulässt."
  },
  "not_measured": {
    "word": "Noch nicht gemessen",
    "meaning": "Etwas fehlt oder ist nicht verwendbar, deshalb gibt es keine Bewertung."
  },
  "pending": {
    "word": "Ergebnis folgt",
    "meaning": "Das Ergebnis kommt später; bis dahin gilt die Abnahme nur bedingt."
  },
  "not_applicable": {
    "word": "Nicht zutreffend",
    "meaning": "Betrifft diese Anlage nicht."
  },
  "instrument_not_good_enough": {
    "word": "Messgerät reicht nicht aus",
    "meaning": "Mit diesem Messgerät ist keine Bewertung möglich. Verwenden Sie ein besseres oder eines mit gültiger Kalibrierung."
  },
  "no_valid_setting": {
    "word": "Keine gültige Einstellung",
    "meaning": "Die untere Grenze liegt über der oberen: Kein Wert kann richtig sein. Ändern Sie die Installation, nicht die Einstellung."
  }
};

export const STATES = {
  "held": {
    "word": "Gesperrt",
    "meaning": "Ein vorausgehender Schritt ist nicht bestanden und kann nicht übergangen werden."
  },
  "waiting": {
    "word": "Wartet",
    "meaning": "Ein vorausgehender Schritt ist nicht erledigt. Führen Sie ihn aus oder übergehen Sie ihn mit Begründung."
  },
  "open": {
    "word": "Offen",
    "meaning": "Noch zu tun."
  },
  "done": {
    "word": "Erledigt",
    "meaning": "Jemand hat ihn bestätigt, und nichts, worauf er beruht, hat sich seither geändert."
  },
  "recheck": {
    "word": "Erneut prüfen",
    "meaning": "Ein Wert, auf dem er beruht, hat sich seither geändert. Sehen Sie nach und bestätigen Sie erneut."
  },
  "not_applicable": {
    "word": "Nicht zutreffend",
    "meaning": "Betrifft diese Anlage nicht."
  },
  "not_done": {
    "word": "Nicht möglich",
    "meaning": "Jemand hat gesagt, warum. Das Protokoll ist nicht bestanden und kann unterschrieben werden."
  },
  "incomplete": {
    "word": "Unvollständig",
    "meaning": "Schritte sind noch offen."
  },
  "complete": {
    "word": "Vollständig",
    "meaning": "Jeder Schritt ist erledigt, oder jemand hat gesagt, warum er nicht möglich war."
  }
};

export const SEVERITIES = {
  "safety": {
    "word": "Gefahr",
    "meaning": "Personen können verletzt werden: Die Anlage bleibt außer Betrieb"
  },
  "major": {
    "word": "Erheblich",
    "meaning": "muss behoben werden: Das Protokoll besteht nur unter dieser Bedingung"
  },
  "minor": {
    "word": "Gering",
    "meaning": "bei Gelegenheit zu beheben"
  }
};

export const SENTENCES = {
  "not_a_number": [
    "{input} muss eine Zahl sein, etwa 6,5, nicht „{value}“.",
    "„{typed}“ ist keine Zahl. Geben Sie Ziffern ein, etwa 6,5.",
    "Das ist keine Zahl. Geben Sie Ziffern ein, etwa 6,5."
  ],
  "ambiguous_number": [
    "„{typed}“ ist auf zwei Arten lesbar. Geben Sie 1.234 mit Punkt als Dezimalzeichen ein oder 1234 ohne Zeichen.",
    "Diese Zahl ist auf zwei Arten lesbar. Geben Sie 1.234 mit Punkt als Dezimalzeichen ein oder 1234 ohne Zeichen."
  ],
  "unknown_unit": [
    "Die Einheit „{unit}“ ist hier nicht bekannt. Verwenden Sie eine von: {units}.",
    "Die Einheit „{unit}“ ist hier nicht bekannt.",
    "Diese Einheit ist hier nicht bekannt. Wählen Sie eine aus der Liste."
  ],
  "wrong_unit": [
    "„{unit}“ misst etwas anderes. Geben Sie den Wert in {wanted} an.",
    "„{unit}“ misst etwas anderes. Verwenden Sie eine von: {units}.",
    "Diese Einheit misst etwas anderes. Wählen Sie eine aus der Liste."
  ],
  "out_of_float_range": [
    "Diese Zahl ist zu groß oder zu klein zum Rechnen. Prüfen Sie Ziffern und Einheit."
  ],
  "not_a_date": [
    "Das ist kein Datum. Schreiben Sie es so: 2026-11-25."
  ],
  "not_an_instant": [
    "Das ist kein Zeitpunkt. Schreiben Sie ihn so: 2026-11-25 09:30:00."
  ],
  "missing_input": [
    "{input} fehlt.",
    "Ein Wert fehlt."
  ],
  "missing": [
    "Noch nicht eingetragen: {quantity}.",
    "Noch nichts eingetragen."
  ],
  "unknown_choice": [
    "„{value}“ gehört nicht zu: {options}.",
    "„{value}“ steht nicht zur Auswahl. Wählen Sie aus der Liste.",
    "Wählen Sie aus der Liste."
  ],
  "outside_range": [
    "{input} ist {value}; die Formel gilt von {minimum} bis {maximum}. Prüfen Sie Wert und Einheit.",
    "{input} ist {value}; die Formel gilt ab {minimum}. Prüfen Sie Wert und Einheit.",
    "{input} ist {value}; die Formel gilt bis {maximum}. Prüfen Sie Wert und Einheit.",
    "Die Formel gilt für diesen Wert nicht. Prüfen Sie Wert und Einheit."
  ],
  "outside_possible": [
    "{value} {unit} ist nicht möglich: Der Wert liegt außerhalb von {minimum} bis {maximum} {unit}. Prüfen Sie Wert und Einheit.",
    "{value} {unit} ist nicht möglich: Der kleinste Wert ist {minimum} {unit}. Prüfen Sie Wert und Einheit.",
    "{value} {unit} ist nicht möglich: Der größte Wert ist {maximum} {unit}. Prüfen Sie Wert und Einheit.",
    "Dieser Wert liegt außerhalb des Möglichen. Prüfen Sie Wert und Einheit."
  ],
  "conflict": [
    "Es sind zwei verschiedene Werte eingetragen. Wählen Sie den gültigen; der andere bleibt im Verlauf."
  ],
  "refused_input": [
    "Nicht verwendbar: {quantity}.",
    "Ein Wert, auf dem dies beruht, ist nicht verwendbar."
  ],
  "no_choice_fits": [
    "Für diese Kombination ist nichts festgelegt. Prüfen Sie die Auswahl oben."
  ],
  "no_result": [
    "Für diese Werte gibt es kein Ergebnis."
  ],
  "no_finite_result": [
    "Diese Zahlen führen zu keinem endlichen Ergebnis. Prüfen Sie sie und ihre Einheiten."
  ],
  "not_whole": [
    "{input} wird gezählt und muss eine ganze Zahl sein, nicht {value}.",
    "Das wird gezählt: Geben Sie eine ganze Zahl an."
  ],
  "not_in_table": [
    "{input} kann nicht {value} sein. Die Tabelle enthält: {options}.",
    "Die Tabelle enthält diesen Wert nicht."
  ],
  "too_few_readings": [
    "{input} braucht mindestens {minimum} Messwerte; vorhanden: {count}.",
    "Es sind noch zu wenige Messwerte."
  ],
  "unknown_input": [
    "Es gibt keine Eingangsgröße „{input}“. Eingangsgrößen sind: {inputs}."
  ],
  "never_reached": [
    "Der Grenzwert wird nie erreicht: Das zufließende Wasser liegt nicht darunter. Sorgen Sie zuerst für saubereren Zufluss."
  ],
  "above_pure_water": [
    "Besser, als reines Wasser sein kann. Prüfen Sie Temperaturfühler, Zellkonstante, Luftblasen in der Zelle und Kabel."
  ],
  "no_set_pressure": [
    "Kein Ansprechdruck ist niedrig genug: Vom zulässigen Druck bleibt nichts für das Ventil. Setzen Sie es tiefer oder ändern Sie die Installation."
  ],
  "no_limit_in_grade": [
    "Diese Wasserqualität hat keinen solchen Grenzwert."
  ],
  "nothing_given": [
    "Keiner der Werte ist vorhanden. Geben Sie mindestens einen an."
  ],
  "no_limit_given": [
    "Geben Sie eine untere Grenze, eine obere Grenze oder beide an."
  ],
  "lengths_differ": [
    "Geben Sie zu jeder Messunsicherheit eine Anzahl Freiheitsgrade an."
  ],
  "unlimited_degrees": [
    "Jeder Beitrag hat unendlich viele Freiheitsgrade, daher gibt es keine Anzahl: Nehmen Sie k = 2."
  ],
  "must_not_trip": [
    "Beim halben Bemessungsdifferenzstrom darf der RCD gar nicht auslösen: Beobachten Sie ihn 2 s lang. Es gibt keine Zeit zu vergleichen."
  ],
  "not_extra_low_voltage": [
    "SELV und PELV enden bei 50 V AC oder 120 V DC: Nehmen Sie den allgemeinen Grenzwert oder prüfen Sie die Spannung."
  ],
  "plug_above_32_amperes": [
    "Ein Stecker über 32 A zählt als fester Anschluss: Wählen Sie diesen."
  ],
  "wall_too_rough": [
    "Die Rauheit beträgt mehr als 5 % des Innendurchmessers: Das Reibungsgesetz gilt nicht. Prüfen Sie beide und ihre Einheiten."
  ],
  "wall_leaves_no_bore": [
    "Die Wand ist zu dick für diesen Außendurchmesser: Es bleibt kein Innendurchmesser. Prüfen Sie beide."
  ],
  "dynamic_above_static": [
    "Mit Durchfluss kann der Druck nicht höher sein als ohne. Prüfen Sie, welcher Messwert welcher ist."
  ],
  "supply_exhausted": [
    "Der Zulauf kann diesen Durchfluss nicht liefern: Sein Druck ist vorher aufgebraucht. Fordern Sie weniger Durchfluss."
  ],
  "no_recovery_allowed": [
    "Das Speisewasser liegt schon über diesem Index, daher ist keine Ausbeute zulässig. Enthärten Sie, dosieren Sie einen Härtestabilisator oder fordern Sie einen anderen Grenzwert."
  ],
  "concentrate_not_above_feed": [
    "Das Konzentrat muss besser leiten als das Speisewasser. Prüfen Sie, welcher Messwert welcher ist."
  ],
  "permeate_not_below_feed": [
    "Das Permeat muss schlechter leiten als das Speisewasser. Prüfen Sie, welcher Messwert welcher ist."
  ],
  "no_flow": [
    "Nichts fließt: weder Permeat noch Konzentrat."
  ],
  "no_driving_pressure": [
    "Der Speisedruck überwindet den osmotischen Druck und den Permeatdruck nicht: Es geht kein Wasser hindurch."
  ],
  "sdi_times_swapped": [
    "Die letzten 500 mL können nicht schneller durchlaufen als die ersten. Prüfen Sie, welche Zeit welche ist, und den Filter."
  ],
  "filter_plugged": [
    "Der Filter ist für dieses Intervall zu stark verblockt. Wiederholen Sie über 10 oder 5 Minuten und geben Sie das Intervall an."
  ],
  "more_acid_than_conductivity": [
    "Bei diesem pH-Wert würden allein die Wasserstoffionen mehr leiten, als gemessen wurde. Prüfen Sie beide Messwerte."
  ],
  "life_used_up": [
    "Die Standzeit ist schon aufgebraucht. Wechseln Sie das Teil oder prüfen Sie beide Zahlen und ihre Einheiten."
  ],
  "radii_swapped": [
    "Die Kammer muss weiter sein als das Hüllrohr. Prüfen Sie, welcher Radius welcher ist."
  ],
  "no_tablet_count": [
    "Keine ganze Zahl von Tabletten ergibt eine Dosis zwischen den Grenzen. Nehmen Sie kleinere Tabletten oder bestimmen Sie das Volumen genauer."
  ],
  "chlorine_has_risen": [
    "Chlor steigt nicht von selbst. Prüfen Sie, welcher Messwert welcher ist, und die Verdünnung."
  ],
  "no_acceptable_reading": [
    "Die Messunsicherheit lässt keinen annehmbaren Messwert zu. Verwenden Sie ein genaueres Messgerät."
  ],
  "no_instrument": [
    "Wählen Sie das Messgerät, mit dem gemessen wurde."
  ],
  "unknown_instrument": [
    "Das gewählte Messgerät steht nicht mehr in der Liste. Wählen Sie es neu."
  ],
  "wrong_instrument": [
    "{name} ist vom Typ {kind}; hier nötig: {wanted}.",
    "Das gewählte Messgerät ist von anderer Art. Hier nötig: {wanted}."
  ],
  "instrument_unit": [
    "{name} ist in {unit} spezifiziert, das passt nicht zu diesem Messwert. Wählen Sie ein anderes Messgerät."
  ],
  "instrument_incomplete": [
    "Die Genauigkeit von {name} ist unvollständig. Lassen Sie sie in der Messgeräteliste ergänzen."
  ],
  "calibration_overdue": [
    "Die Kalibrierung von {name} ist am {due} abgelaufen. Messen Sie mit einem gültig kalibrierten Messgerät."
  ],
  "calibration_unknown": [
    "{name} hat kein Kalibrierdatum. Messen Sie mit einem gültig kalibrierten Messgerät."
  ],
  "outside_instrument_range": [
    "Der Messwert liegt außerhalb des Bereichs von {name}, {minimum} bis {maximum} {unit}. Verwenden Sie einen anderen Bereich oder ein anderes Messgerät."
  ],
  "window_too_narrow": [
    "Die Messunsicherheit ±{expanded} {unit} lässt zwischen den Grenzen keinen annehmbaren Messwert zu. Sie darf höchstens ±{needed} {unit} betragen."
  ],
  "no_reading_can_pass": [
    "Mit der Messunsicherheit ±{expanded} {unit} dieses Messgeräts kann kein Messwert bestehen. Verwenden Sie ein genaueres."
  ],
  "uncertainty_unknown": [
    "Die Messunsicherheit dieses Werts ist nicht berechenbar. Prüfen Sie die Messgeräte der Messwerte, auf denen er beruht."
  ],
  "lower_above_upper": [
    "Der kleinste zulässige Wert {lower} {unit} liegt über dem größten, {upper} {unit}: Keine Einstellung ist richtig. Ändern Sie, woraus die Grenzen berechnet werden."
  ],
  "answer_not_accepted": [
    "Die Antwort „{value}“ wird hier nicht angenommen.",
    "Diese Antwort wird hier nicht angenommen."
  ],
  "out_of_order": [
    "Die Zeiten stehen nicht in der vorgeschriebenen Reihenfolge. Prüfen Sie sie oder wiederholen Sie alles der Reihe nach."
  ],
  "same_instant": [
    "Zwei Zeiten sind gleich. Tragen Sie jede sofort ein, auf die Sekunde genau."
  ],
  "different_instruments": [
    "Alle diese Werte müssen mit ein und demselben Messgerät gemessen sein. Wiederholen Sie sie mit einem."
  ],
  "result_pending": [
    "Das Ergebnis steht noch aus."
  ],
  "hold_not_passed": [
    "„{needs}“ muss zuerst bestanden sein. {because}",
    "Ein vorausgehender Schritt muss bestanden sein."
  ],
  "prerequisite_not_met": [
    "„{needs}“ ist noch nicht erledigt. {because}",
    "Ein vorausgehender Schritt ist noch nicht erledigt."
  ],
  "prerequisite_overridden": [
    "Ausgeführt, obwohl „{needs}“ nicht erfüllt war. Grund: {reason}",
    "Ausgeführt, obwohl ein vorausgehender Schritt nicht erfüllt war."
  ],
  "step_open": [
    "Der Schritt ist noch nicht erledigt."
  ],
  "step_held": [
    "Der Schritt ist durch einen vorausgehenden gesperrt."
  ],
  "step_waiting": [
    "Der Schritt wartet auf einen vorausgehenden."
  ],
  "step_recheck": [
    "Ein Wert, auf dem er beruht, hat sich geändert. Sehen Sie nach und bestätigen Sie den Schritt erneut."
  ],
  "step_not_done": [
    "Der Schritt war nicht möglich; der Grund steht dort."
  ],
  "step_not_reached": [
    "Der Schritt wurde nicht erreicht: Einer, der vorher kommt, war nicht möglich."
  ],
  "step_missing": [
    "Werte fehlen oder sind nicht verwendbar."
  ],
  "step_failed": [
    "Der Schritt ist nicht bestanden."
  ],
  "step_not_optional": [
    "Dieser Schritt darf nicht entfallen."
  ],
  "step_not_applicable": [
    "Entfällt als nicht zutreffend. Grund: {reason}",
    "Entfällt als nicht zutreffend."
  ],
  "defect_open": [
    "Ein erheblicher Mangel ist noch offen. Beheben und schließen Sie ihn oder lassen Sie ihn von der Aufsicht unter Bedingungen annehmen."
  ],
  "defect_unsafe": [
    "Ein Mangel, der die Anlage unsicher macht, ist noch offen. Beheben und schließen Sie ihn, bevor die Anlage benutzt wird."
  ],
  "rule_conditional_pass": [
    "Ein Messwert liegt um weniger als die Messunsicherheit innerhalb seines Grenzwerts."
  ],
  "rule_conditional_fail": [
    "Ein Messwert liegt um weniger als die Messunsicherheit außerhalb seines Grenzwerts."
  ],
  "rule_pending": [
    "Ein Ergebnis steht noch aus."
  ],
  "unknown_field": [
    "„{field}“ ist nicht bekannt. Meinten Sie {near}?",
    "„{field}“ ist nicht bekannt."
  ],
  "wrong_shape": [
    "„{field}“ muss dies sein: {wanted}."
  ]
};
