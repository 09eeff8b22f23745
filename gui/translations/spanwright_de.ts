<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de_DE" sourcelanguage="en">
<context>
    <name>Commands</name>
    <message>
        <source>&amp;Open record…</source>
        <translation>Akte ö&amp;ffnen…</translation>
    </message>
    <message>
        <source>Open a record file</source>
        <translation>Eine Aktendatei öffnen</translation>
    </message>
    <message>
        <source>Make an empty record from a site description</source>
        <translation>Aus der Beschreibung eines Standorts eine leere Akte anlegen</translation>
    </message>
    <message>
        <source>&amp;Try the sample record</source>
        <translation>&amp;Beispielakte ausprobieren</translation>
    </message>
    <message>
        <source>Open your own copy of an invented site</source>
        <translation>Die eigene Kopie eines erfundenen Standorts öffnen</translation>
    </message>
    <message>
        <source>&amp;Import histories…</source>
        <translation>&amp;Historien importieren…</translation>
    </message>
    <message>
        <source>Read past calibrations from CSV files through a mapping</source>
        <translation>Frühere Kalibrierungen über eine Zuordnung aus CSV-Dateien lesen</translation>
    </message>
    <message>
        <source>C&amp;heck the record…</source>
        <translation>Akte &amp;prüfen…</translation>
    </message>
    <message>
        <source>Prove that nothing was changed behind the journal&apos;s back</source>
        <translation>Nachweisen, dass nichts am Journal vorbei geändert wurde</translation>
    </message>
    <message>
        <source>&amp;Close record</source>
        <translation>Akte &amp;schließen</translation>
    </message>
    <message>
        <source>Close this record and return to the start</source>
        <translation>Diese Akte schließen und zum Anfang zurückkehren</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>B&amp;eenden</translation>
    </message>
    <message>
        <source>Leave the program; unfinished visits are kept</source>
        <translation>Das Programm verlassen; angefangene Einsätze bleiben erhalten</translation>
    </message>
    <message>
        <source>&amp;Site</source>
        <translation>&amp;Standort</translation>
    </message>
    <message>
        <source>Places and channels with their state</source>
        <translation>Orte und Kanäle mit ihrem Status</translation>
    </message>
    <message>
        <source>&amp;Due list</source>
        <translation>&amp;Fälligkeiten</translation>
    </message>
    <message>
        <source>What is due, most pressing first</source>
        <translation>Was fällig ist, das Dringendste zuerst</translation>
    </message>
    <message>
        <source>&amp;Review</source>
        <translation>&amp;Prüfung</translation>
    </message>
    <message>
        <source>Calibrations that wait for a signature, oldest first</source>
        <translation>Kalibrierungen, die auf eine Unterschrift warten, die älteste zuerst</translation>
    </message>
    <message>
        <source>&amp;Back</source>
        <translation>&amp;Zurück</translation>
    </message>
    <message>
        <source>Return to the page before</source>
        <translation>Zur vorigen Seite zurück</translation>
    </message>
    <message>
        <source>&amp;Find channel</source>
        <translation>&amp;Kanal suchen</translation>
    </message>
    <message>
        <source>Go to the box that narrows the list</source>
        <translation>Zum Feld gehen, das die Liste einengt</translation>
    </message>
    <message>
        <source>Dar&amp;k colours</source>
        <translation>&amp;Dunkle Farben</translation>
    </message>
    <message>
        <source>Enter a &amp;visit</source>
        <translation>&amp;Einsatz erfassen</translation>
    </message>
    <message>
        <source>Open the entry sheet for the channel shown or chosen</source>
        <translation>Das Erfassungsblatt des gezeigten oder gewählten Kanals öffnen</translation>
    </message>
    <message>
        <source>&amp;Finish visit</source>
        <translation>Einsatz a&amp;bschließen</translation>
    </message>
    <message>
        <source>Check the whole sheet and store the visit</source>
        <translation>Das ganze Blatt prüfen und den Einsatz speichern</translation>
    </message>
    <message>
        <source>S&amp;kip this point</source>
        <translation>Messpunkt aus&amp;lassen</translation>
    </message>
    <message>
        <source>Say why this point is not taken</source>
        <translation>Angeben, warum dieser Messpunkt nicht aufgenommen wird</translation>
    </message>
    <message>
        <source>Discard draft</source>
        <translation>Entwurf verwerfen</translation>
    </message>
    <message>
        <source>Throw away what was typed for this visit</source>
        <translation>Wegwerfen, was zu diesem Einsatz eingegeben wurde</translation>
    </message>
    <message>
        <source>Si&amp;gn…</source>
        <translation>&amp;Unterschreiben…</translation>
    </message>
    <message>
        <source>Sign, send back or withdraw the calibration shown or chosen</source>
        <translation>Die gezeigte oder gewählte Kalibrierung unterschreiben, zurückgeben oder zurückziehen</translation>
    </message>
    <message>
        <source>&amp;Issue certificate…</source>
        <translation>&amp;Kalibrierschein ausstellen…</translation>
    </message>
    <message>
        <source>Allot a number and write the certificate as PDF</source>
        <translation>Eine Nummer vergeben und den Kalibrierschein als PDF schreiben</translation>
    </message>
    <message>
        <source>&amp;Keys</source>
        <translation>&amp;Tasten</translation>
    </message>
    <message>
        <source>All keys on one page</source>
        <translation>Alle Tasten auf einer Seite</translation>
    </message>
    <message>
        <source>&amp;About</source>
        <translation>Ü&amp;ber</translation>
    </message>
    <message>
        <source>What this program is, and what it is not</source>
        <translation>Was dieses Programm ist und was nicht</translation>
    </message>
    <message>
        <source>Dr&amp;ift</source>
        <translation>&amp;Drift</translation>
    </message>
    <message>
        <source>All channels by how soon they leave their tolerance</source>
        <translation>Alle Kanäle danach, wie bald sie ihre Toleranz verlassen</translation>
    </message>
    <message>
        <source>&amp;Plan</source>
        <translation>P&amp;lan</translation>
    </message>
    <message>
        <source>Visits fitted into the weeks to come</source>
        <translation>Einsätze, auf die kommenden Wochen verteilt</translation>
    </message>
    <message>
        <source>I&amp;ntervals</source>
        <translation>&amp;Intervalle</translation>
    </message>
    <message>
        <source>Proposed intervals with their evidence, and accepting them</source>
        <translation>Vorgeschlagene Intervalle mit ihren Belegen, und ihre Annahme</translation>
    </message>
    <message>
        <source>&amp;Evidence for a reviewer…</source>
        <translation>Nach&amp;weise für Prüfer…</translation>
    </message>
    <message>
        <source>A bundle of calibrations with all they rest on, to hand out</source>
        <translation>Ein Bündel von Kalibrierungen mit allem, worauf sie beruhen, zum Aushändigen</translation>
    </message>
    <message>
        <source>My &amp;passphrase…</source>
        <translation>&amp;Meine Passphrase…</translation>
    </message>
    <message>
        <source>Change the passphrase you sign with</source>
        <translation>Die Passphrase ändern, mit der Sie unterschreiben</translation>
    </message>
    <message>
        <source>&amp;Today</source>
        <translation>&amp;Heute</translation>
    </message>
    <message>
        <source>What needs doing today for the person who works</source>
        <translation>Was heute für die arbeitende Person zu tun ist</translation>
    </message>
    <message>
        <source>St&amp;andards</source>
        <translation>&amp;Normale</translation>
    </message>
    <message>
        <source>How long each standard may be used, its certificates and its chart</source>
        <translation>Wie lange jedes Normal verwendet werden darf, seine Kalibrierscheine und seine Regelkarte</translation>
    </message>
    <message>
        <source>Ro&amp;unds</source>
        <translation>&amp;Rundgänge</translation>
    </message>
    <message>
        <source>Lists of channels to walk past, with what is done of them</source>
        <translation>Listen von Kanälen zum Abgehen, mit dem, was davon erledigt ist</translation>
    </message>
    <message>
        <source>&amp;Journal</source>
        <translation>&amp;Journal</translation>
    </message>
    <message>
        <source>What was done to the record, when and by whom</source>
        <translation>Was an der Akte gemacht wurde, wann und von wem</translation>
    </message>
    <message>
        <source>Ne&amp;xt channel of the round</source>
        <translation>Nächster Kanal des &amp;Rundgangs</translation>
    </message>
    <message>
        <source>Open the entry sheet of the next channel to do</source>
        <translation>Das Erfassungsblatt des nächsten zu erledigenden Kanals öffnen</translation>
    </message>
    <message>
        <source>&amp;Files…</source>
        <translation>&amp;Dateien…</translation>
    </message>
    <message>
        <source>Files kept about the channel, calibration or standard shown</source>
        <translation>Dateien zum gezeigten Kanal, zur Kalibrierung oder zum Normal</translation>
    </message>
    <message>
        <source>Repeat the value above</source>
        <translation>Wert darüber wiederholen</translation>
    </message>
    <message>
        <source>Put in what stands in the line above and go on</source>
        <translation>Einsetzen, was in der Zeile darüber steht, und weitergehen</translation>
    </message>
    <message>
        <source>Take back</source>
        <translation>Zurücknehmen</translation>
    </message>
    <message>
        <source>Take back what was typed or pasted last</source>
        <translation>Zurücknehmen, was zuletzt getippt oder eingefügt wurde</translation>
    </message>
    <message>
        <source>Do again</source>
        <translation>Wiederholen</translation>
    </message>
    <message>
        <source>Do again what was taken back</source>
        <translation>Wiederholen, was zurückgenommen wurde</translation>
    </message>
    <message>
        <source>Wait for the reading to settle</source>
        <translation>Warten, bis die Ablesung steht</translation>
    </message>
    <message>
        <source>Count down until the reading of this point has settled; again stops it</source>
        <translation>Herunterzählen, bis die Ablesung dieses Messpunkts steht; nochmals hält es an</translation>
    </message>
    <message>
        <source>&amp;Labels…</source>
        <translation>E&amp;tiketten…</translation>
    </message>
    <message>
        <source>What it &amp;rests on</source>
        <translation>&amp;Worauf sie beruht</translation>
    </message>
    <message>
        <source>The calibration shown or chosen with the origin of every number</source>
        <translation>Die gezeigte oder gewählte Kalibrierung mit der Herkunft jeder Zahl</translation>
    </message>
    <message>
        <source>How &amp;numbers come about</source>
        <translation>Wie &amp;Zahlen entstehen</translation>
    </message>
    <message>
        <source>Formula and source of the number chosen, beside the page</source>
        <translation>Formel und Quelle der gewählten Zahl, neben der Seite</translation>
    </message>
    <message>
        <source>A sheet of labels to stick on what is proven</source>
        <translation>Ein Bogen Etiketten zum Aufkleben auf das, was nachgewiesen ist</translation>
    </message>
    <message>
        <source>&amp;New site…</source>
        <translation>&amp;Neuer Standort…</translation>
    </message>
    <message>
        <source>Make the record of a new site by form</source>
        <translation>Die Akte eines neuen Standorts im Formular anlegen</translation>
    </message>
    <message>
        <source>New record &amp;from a site file…</source>
        <translation>Neue Akte aus einer Standort&amp;datei…</translation>
    </message>
    <message>
        <source>&amp;Change…</source>
        <translation>Ä&amp;ndern…</translation>
    </message>
    <message>
        <source>Change the channel or place shown or chosen</source>
        <translation>Den gezeigten oder gewählten Kanal oder Ort ändern</translation>
    </message>
    <message>
        <source>New &amp;place…</source>
        <translation>Neuer &amp;Ort…</translation>
    </message>
    <message>
        <source>Add a place within the one chosen</source>
        <translation>Innerhalb des gewählten Ortes einen Ort anlegen</translation>
    </message>
    <message>
        <source>New c&amp;hannel…</source>
        <translation>Neuer &amp;Kanal…</translation>
    </message>
    <message>
        <source>Add a channel at the place chosen</source>
        <translation>Am gewählten Ort einen Kanal anlegen</translation>
    </message>
    <message>
        <source>New &amp;setup in force…</source>
        <translation>Neue &amp;Parametrierung in Kraft…</translation>
    </message>
    <message>
        <source>Put another setup of the channel in force from a day</source>
        <translation>Eine andere Parametrierung des Kanals ab einem Tag in Kraft setzen</translation>
    </message>
    <message>
        <source>&amp;Fit a sensor…</source>
        <translation>&amp;Sensor einbauen…</translation>
    </message>
    <message>
        <source>Fit another sensor to the channel</source>
        <translation>Am Kanal einen anderen Sensor einbauen</translation>
    </message>
    <message>
        <source>&amp;Lists of the register…</source>
        <translation>&amp;Listen des Registers…</translation>
    </message>
    <message>
        <source>People, places, plans, intervals, standards and sensors</source>
        <translation>Personen, Orte, Pläne, Intervalle, Normale und Sensoren</translation>
    </message>
    <message>
        <source>The s&amp;ite…</source>
        <translation>Der S&amp;tandort…</translation>
    </message>
    <message>
        <source>Name, address, issuer and customer, as certificates print them</source>
        <translation>Name, Anschrift, Aussteller und Kunde, wie sie auf Kalibrierscheinen stehen</translation>
    </message>
    <message>
        <source>Li&amp;ght colours</source>
        <translation>&amp;Helle Farben</translation>
    </message>
    <message>
        <source>Dark text on a light ground</source>
        <translation>Dunkle Schrift auf hellem Grund</translation>
    </message>
    <message>
        <source>Light text on a dark ground</source>
        <translation>Helle Schrift auf dunklem Grund</translation>
    </message>
    <message>
        <source>High &amp;contrast</source>
        <translation>Hoher &amp;Kontrast</translation>
    </message>
    <message>
        <source>White text on black, with edges and marks that stand out</source>
        <translation>Weiße Schrift auf Schwarz, mit Rändern und Zeichen, die sich abheben</translation>
    </message>
    <message>
        <source>Larger te&amp;xt</source>
        <translation>Größere Schri&amp;ft</translation>
    </message>
    <message>
        <source>The next larger text, up to 200 %</source>
        <translation>Die nächstgrößere Schrift, bis 200 %</translation>
    </message>
    <message>
        <source>S&amp;maller text</source>
        <translation>Kle&amp;inere Schrift</translation>
    </message>
    <message>
        <source>The next smaller text, down to 100 %</source>
        <translation>Die nächstkleinere Schrift, bis 100 %</translation>
    </message>
</context>
<context>
    <name>Explanations</name>
    <message>
        <source>Expected reading</source>
        <translation>Sollanzeige</translation>
    </message>
    <message>
        <source>expected = reading low + (applied − input low) / (input span) × reading span</source>
        <translation>Sollanzeige = Anzeigeanfang + (Vorgabe − Eingangsanfang) / Eingangsspanne × Anzeigespanne</translation>
    </message>
    <message>
        <source>What a faultless channel, configured as its setup says, reads for what was applied. The line stands for a linear setup; square root, thermocouple, resistance thermometer and characterised inputs use their own function.</source>
        <translation>Was ein fehlerfreier Kanal nach seiner Parametrierung für die Vorgabe anzeigt. Die Formel gilt für eine lineare Parametrierung; Wurzel, Thermoelement, Widerstandsthermometer und Kennlinien rechnen mit ihrer eigenen Funktion.</translation>
    </message>
    <message>
        <source>Thermocouples: IEC 60584-1 and the NIST ITS-90 tables; resistance thermometers: IEC 60751; the rest follows from the setup itself</source>
        <translation>Thermoelemente: IEC 60584-1 und die ITS-90-Tabellen des NIST; Widerstandsthermometer: IEC 60751; das Übrige folgt aus der Parametrierung selbst</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Messabweichung</translation>
    </message>
    <message>
        <source>error = reading − expected
in % of span: 100 × error / reading span</source>
        <translation>Messabweichung = Ablesung − Sollanzeige
in % der Spanne: 100 × Messabweichung / Anzeigespanne</translation>
    </message>
    <message>
        <source>Positive: it reads too high. As found is before anything was touched, as left is after.</source>
        <translation>Positiv: die Anzeige ist zu hoch. Vorgefunden heißt, bevor etwas berührt wurde, hinterlassen danach.</translation>
    </message>
    <message>
        <source>JCGM 200:2012 (VIM) 2.16; ANSI/ISA-51.1, “error”</source>
        <translation>JCGM 200:2012 (VIM) 2.16; ANSI/ISA-51.1, „error“</translation>
    </message>
    <message>
        <source>Tolerance</source>
        <translation>Toleranz</translation>
    </message>
    <message>
        <source>limit = absolute + % of reading × |expected| + % of span × |span| + counts × one count</source>
        <translation>Grenze = fest + % der Ablesung × |Sollanzeige| + % der Spanne × |Spanne| + Schritte × ein Schritt</translation>
    </message>
    <message>
        <source>All terms of the plan are added. A limit finer than one step of the reading cannot be shown, so it is widened to one step, and that is said beside it.</source>
        <translation>Alle Teile des Plans werden addiert. Eine Grenze, die feiner ist als ein Schritt der Anzeige, ist nicht zu zeigen; sie wird auf einen Schritt erweitert, und das steht dabei.</translation>
    </message>
    <message>
        <source>The plan of the channel; the rule of one step is this program&apos;s own</source>
        <translation>Der Plan des Kanals; die Regel mit dem einen Schritt ist eine dieses Programms</translation>
    </message>
    <message>
        <source>Share of tolerance used</source>
        <translation>Genutzter Teil der Toleranz</translation>
    </message>
    <message>
        <source>used = |error| / limit on its side</source>
        <translation>genutzt = |Messabweichung| / Grenze auf ihrer Seite</translation>
    </message>
    <message>
        <source>100 % lies on the limit and is still inside. Above the plan&apos;s adjust limit (often 70 %) the channel is adjusted although it passed.</source>
        <translation>100 % liegt auf der Grenze und gilt noch. Über der Justiergrenze des Plans (oft 70 %) wird justiert, obwohl der Kanal bestanden hat.</translation>
    </message>
    <message>
        <source>Common practice, no source</source>
        <translation>Übliche Praxis, ohne Quelle</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Bewertung</translation>
    </message>
    <message>
        <source>pass: lower limit ≤ error ≤ upper limit</source>
        <translation>bestanden: untere Grenze ≤ Messabweichung ≤ obere Grenze</translation>
    </message>
    <message>
        <source>A run passes when at least one reading passed and none failed; with nothing judged it is “not judged”, which proves nothing.</source>
        <translation>Ein Durchgang besteht, wenn mindestens eine Ablesung bestanden hat und keine nicht; ist nichts bewertet, heißt er „nicht bewertet“ und weist nichts nach.</translation>
    </message>
    <message>
        <source>ILAC-G8:09/2019, 4.2.1 (simple acceptance)</source>
        <translation>ILAC-G8:09/2019, 4.2.1 (einfache Annahme)</translation>
    </message>
    <message>
        <source>Decision rule and guard band</source>
        <translation>Entscheidungsregel und Sicherheitsband</translation>
    </message>
    <message>
        <source>w = r × U
pass: inside the limits by w or more
conditional: within w of a limit</source>
        <translation>w = r × U
bestanden: um w oder mehr innerhalb der Grenzen
bedingt: näher als w an einer Grenze</translation>
    </message>
    <message>
        <source>With a guard band w the limits are drawn in, so that what is accepted is inside with the probability the rule promises. The width can also follow from a risk.</source>
        <translation>Mit einem Sicherheitsband w werden die Grenzen enger, sodass das Angenommene mit der versprochenen Wahrscheinlichkeit innerhalb liegt. Die Breite kann auch aus einem Risiko folgen.</translation>
    </message>
    <message>
        <source>ILAC-G8:09/2019, 4.2.2 and 4.2.3; JCGM 106:2012, clauses 8 and 9</source>
        <translation>ILAC-G8:09/2019, 4.2.2 und 4.2.3; JCGM 106:2012, Abschnitte 8 und 9</translation>
    </message>
    <message>
        <source>Expanded uncertainty U</source>
        <translation>Erweiterte Messunsicherheit U</translation>
    </message>
    <message>
        <source>u² = Σ (cᵢ uᵢ)²
U = k × u, k from Student&apos;s t for 95.45 %</source>
        <translation>u² = Σ (cᵢ uᵢ)²
U = k × u, k aus Students t für 95,45 %</translation>
    </message>
    <message>
        <source>The standard&apos;s certificate, its drift since, its step and that of the reading, repeats and, where the plan states them, reference junction and leads. The budget lists every line.</source>
        <translation>Der Kalibrierschein des Normals, seine Drift seither, sein Schritt und der der Anzeige, Wiederholungen und, wo der Plan sie nennt, Vergleichsstelle und Zuleitungen. Das Budget nennt jede Zeile.</translation>
    </message>
    <message>
        <source>JCGM 100:2008 (GUM), 5.1.2, 6.2, G.4 and G.6.4</source>
        <translation>JCGM 100:2008 (GUM), 5.1.2, 6.2, G.4 und G.6.4</translation>
    </message>
    <message>
        <source>Test uncertainty ratio</source>
        <translation>Verhältnis von Toleranz zu Unsicherheit</translation>
    </message>
    <message>
        <source>ratio = half the distance of the limits / U</source>
        <translation>Verhältnis = halber Abstand der Grenzen / U</translation>
    </message>
    <message>
        <source>How much finer the test is than what it judges. Under 4 a pass near the limit is worth less; a guard band says by how much.</source>
        <translation>Wie viel feiner die Prüfung ist als das, was sie bewertet. Unter 4 ist ein Bestehen nahe der Grenze weniger wert; ein Sicherheitsband sagt, um wie viel.</translation>
    </message>
    <message>
        <source>JCGM 106:2012, 7.6 (the same as C with U = 2 u); 4 to 1 is common practice, no source</source>
        <translation>JCGM 106:2012, 7.6 (dasselbe wie C mit U = 2 u); 4 zu 1 ist übliche Praxis, ohne Quelle</translation>
    </message>
    <message>
        <source>Advice to adjust</source>
        <translation>Rat zum Justieren</translation>
    </message>
    <message>
        <source>least over (zero, span) of the largest |error after| / limit</source>
        <translation>kleinstes (über Nullpunkt, Spanne) der größten |Messabweichung danach| / Grenze</translation>
    </message>
    <message>
        <source>Of all settings of zero and span the one that leaves the worst point with the least share of its tolerance. Where scatter or the range of the trim allows no gain, that is said instead.</source>
        <translation>Von allen Nullpunkten und Spannen jene, die dem schlechtesten Messpunkt den kleinsten Teil seiner Toleranz lässt. Wo Streuung oder Stellbereich keinen Gewinn zulassen, steht das stattdessen da.</translation>
    </message>
    <message>
        <source>This program&apos;s own method (a linear program, solved exactly)</source>
        <translation>Verfahren dieses Programms (ein lineares Programm, genau gelöst)</translation>
    </message>
    <message>
        <source>Drift per year</source>
        <translation>Drift je Jahr</translation>
    </message>
    <message>
        <source>rate = Σ (t − t̄)(e − ē) / Σ (t − t̄)²</source>
        <translation>Drift = Σ (t − t̄)(e − ē) / Σ (t − t̄)²</translation>
    </message>
    <message>
        <source>One rate for all segments, each about its own mean. A segment ends with an adjustment, a new setup, another sensor or a repair; it begins with the reading as left.</source>
        <translation>Eine Drift für alle Abschnitte, jeder um sein eigenes Mittel. Ein Abschnitt endet mit Justierung, neuer Parametrierung, anderem Sensor oder Reparatur; er beginnt mit der Ablesung, wie sie hinterlassen wurde.</translation>
    </message>
    <message>
        <source>Least squares; NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1</source>
        <translation>Kleinste Quadrate; NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1</translation>
    </message>
    <message>
        <source>Robust rate</source>
        <translation>Robuste Drift</translation>
    </message>
    <message>
        <source>median of (e₂ − e₁) / (t₂ − t₁)</source>
        <translation>Median von (e₂ − e₁) / (t₂ − t₁)</translation>
    </message>
    <message>
        <source>Over all pairs of readings of one segment. One wild reading cannot move it; where it is far from the fitted rate, look at the readings.</source>
        <translation>Über alle Paare von Ablesungen eines Abschnitts. Eine einzelne wilde Ablesung bewegt sie nicht; liegt sie weit von der angepassten Drift, lohnt ein Blick auf die Ablesungen.</translation>
    </message>
    <message>
        <source>P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379</source>
        <translation>P. K. Sen, J. Am. Stat. Assoc. 63 (1968), Seite 1379</translation>
    </message>
    <message>
        <source>Rate leaning on like subjects</source>
        <translation>Drift mit Hilfe ähnlicher Gegenstände</translation>
    </message>
    <message>
        <source>rate&apos; = mean + B × (rate − mean)
B = τ² / (τ² + v)</source>
        <translation>Drift′ = Mittel + B × (Drift − Mittel)
B = τ² / (τ² + v)</translation>
    </message>
    <message>
        <source>Few calibrations say little, so a rate is drawn towards the mean of like subjects: the more, the larger its own variance v is beside the variance τ² between them. What is not known of τ is averaged over.</source>
        <translation>Wenige Kalibrierungen sagen wenig; darum wird eine Drift zum Mittel ähnlicher Gegenstände gezogen: umso mehr, je größer ihre eigene Varianz v neben der Varianz τ² zwischen ihnen ist. Was an τ unbekannt ist, wird gemittelt.</translation>
    </message>
    <message>
        <source>Empirical Bayes with restricted maximum likelihood (D. A. Harville, J. Am. Stat. Assoc. 72 (1977) 320)</source>
        <translation>Empirischer Bayes mit eingeschränkter größter Likelihood (D. A. Harville, J. Am. Stat. Assoc. 72 (1977) 320)</translation>
    </message>
    <message>
        <source>95 % band</source>
        <translation>95-%-Band</translation>
    </message>
    <message>
        <source>line ± t × √( s² (1 + 1/n) + v (t − t̄)² )</source>
        <translation>Gerade ± t × √( s² (1 + 1/n) + v (t − t̄)² )</translation>
    </message>
    <message>
        <source>Holds the next reading as found in 95 of 100 cases. It widens with the time since the last visits, and faster where the error is seen to wander. “Told from” says whose readings it rests on.</source>
        <translation>Enthält die nächste vorgefundene Ablesung in 95 von 100 Fällen. Es wird weiter mit der Zeit seit den letzten Einsätzen, und schneller, wo die Messabweichung sichtbar wandert. Wessen Ablesungen dahinterstehen, steht dabei.</translation>
    </message>
    <message>
        <source>Prediction interval of least squares; how often it holds is measured by simulation</source>
        <translation>Vorhersageband der kleinsten Quadrate; wie oft es hält, ist durch Simulation gemessen</translation>
    </message>
    <message>
        <source>Day of leaving tolerance</source>
        <translation>Tag, an dem die Toleranz verlassen wird</translation>
    </message>
    <message>
        <source>first day with line ± band outside the limits</source>
        <translation>erster Tag, an dem Gerade ± Band außerhalb der Grenzen liegt</translation>
    </message>
    <message>
        <source>The band leaves first: until that day a reading as found is expected inside. The line leaves when it is as likely as not.</source>
        <translation>Das Band verlässt sie zuerst: bis dahin ist eine vorgefundene Ablesung innerhalb zu erwarten. Die Gerade verlässt sie, wenn beides gleich wahrscheinlich ist.</translation>
    </message>
    <message>
        <source>Follows from line and band</source>
        <translation>Folgt aus Gerade und Band</translation>
    </message>
    <message>
        <source>Probability of being in tolerance</source>
        <translation>Wahrscheinlichkeit, in Toleranz zu sein</translation>
    </message>
    <message>
        <source>P(lower limit ≤ next reading ≤ upper limit)</source>
        <translation>P(untere Grenze ≤ nächste Ablesung ≤ obere Grenze)</translation>
    </message>
    <message>
        <source>For a reading taken on the day shown, from the same line and band.</source>
        <translation>Für eine Ablesung am gezeigten Tag, aus derselben Geraden und demselben Band.</translation>
    </message>
    <message>
        <source>Follows from line and band; what is said and what happens is compared by simulation</source>
        <translation>Folgt aus Gerade und Band; Gesagtes und Geschehenes sind durch Simulation verglichen</translation>
    </message>
    <message>
        <source>Found in the history</source>
        <translation>In der Vorgeschichte gefunden</translation>
    </message>
    <message>
        <source>named when p &lt; 1 / 5000</source>
        <translation>genannt, wenn p &lt; 1 / 5000</translation>
    </message>
    <message>
        <source>A step, a loose contact, drift unlike the group&apos;s, growing scatter, or rates that disagree. p is the probability of something so clear in a quiet point.</source>
        <translation>Ein Sprung, ein Wackelkontakt, eine Drift anders als die der Gruppe, wachsende Streuung oder widersprüchliche Drift. p ist die Wahrscheinlichkeit von etwas so Deutlichem an einem ruhigen Messpunkt.</translation>
    </message>
    <message>
        <source>Cumulative sums: E. S. Page, Biometrika 41 (1954) 100; the limit is this program&apos;s own</source>
        <translation>Kumulierte Summen: E. S. Page, Biometrika 41 (1954) 100; die Grenze ist eine dieses Programms</translation>
    </message>
    <message>
        <source>Due on</source>
        <translation>Fällig am</translation>
    </message>
    <message>
        <source>due = day of the last passing as left + interval</source>
        <translation>fällig = Tag der letzten bestandenen Hinterlassung + Intervall</translation>
    </message>
    <message>
        <source>Moved to the working day on or before. Only a visit under the setup and sensor in force counts; without one the channel is unproven and due at once.</source>
        <translation>Auf den Arbeitstag an oder vor diesem Tag gelegt. Nur ein Einsatz unter geltender Parametrierung und geltendem Sensor zählt; ohne ihn ist der Kanal ohne Nachweis und sofort fällig.</translation>
    </message>
    <message>
        <source>The channel&apos;s interval policy; common practice, no source</source>
        <translation>Die Intervallregel des Kanals; übliche Praxis, ohne Quelle</translation>
    </message>
    <message>
        <source>Proposed interval</source>
        <translation>Vorgeschlagenes Intervall</translation>
    </message>
    <message>
        <source>staircase: one step longer or shorter
reliability: −ln(target) / λ
forecast: until the band leaves</source>
        <translation>Treppe: ein Schritt länger oder kürzer
Zuverlässigkeit: −ln(Ziel) / λ
Vorhersage: bis das Band die Toleranz verlässt</translation>
    </message>
    <message>
        <source>By the policy of the channel, within its limits. λ is the rate of leaving tolerance of like subjects, from what visits found at unequal intervals. Nothing holds until a person accepts it.</source>
        <translation>Nach der Regel des Kanals, innerhalb ihrer Grenzen. λ ist die Rate, mit der ähnliche Gegenstände die Toleranz verlassen, aus den Befunden der Einsätze in ungleichen Abständen. Nichts gilt, bevor eine Person es annimmt.</translation>
    </message>
    <message>
        <source>ILAC-G24:2022 / OIML D 10:2022, clause 6</source>
        <translation>ILAC-G24:2022 / OIML D 10:2022, Abschnitt 6</translation>
    </message>
    <message>
        <source>Visits counted</source>
        <translation>Gezählte Einsätze</translation>
    </message>
    <message>
        <source>A visit tells whether the interval before it was short enough when it was judged as found and the visit before left the same subject passing, at least a day earlier.</source>
        <translation>Ein Einsatz sagt, ob das Intervall vor ihm kurz genug war, wenn er wie vorgefunden bewertet ist und der Einsatz davor denselben Gegenstand mindestens einen Tag früher bestanden hinterließ.</translation>
    </message>
    <message>
        <source>This program&apos;s own rule</source>
        <translation>Regel dieses Programms</translation>
    </message>
    <message>
        <source>Standard usable until</source>
        <translation>Normal verwendbar bis</translation>
    </message>
    <message>
        <source>Until the last day of its certificate, unless it is out of service or a person allowed more. The plan uses a standard only on days on which it is valid.</source>
        <translation>Bis zum letzten Tag seines Kalibrierscheins, sofern es nicht außer Betrieb ist oder eine Person mehr erlaubt hat. Der Plan nimmt ein Normal nur an Tagen, an denen es gültig ist.</translation>
    </message>
    <message>
        <source>ISO/IEC 17025:2017, 6.4 (from memory)</source>
        <translation>ISO/IEC 17025:2017, 6.4 (aus dem Gedächtnis)</translation>
    </message>
    <message>
        <source>Control chart of a standard</source>
        <translation>Regelkarte eines Normals</translation>
    </message>
    <message>
        <source>single values: mean ± 3 σ
moving average: z = λ x + (1 − λ) z, limits ± L σ √(λ / (2 − λ))</source>
        <translation>Einzelwerte: Mittel ± 3 σ
gleitendes Mittel: z = λ x + (1 − λ) z, Grenzen ± L σ √(λ / (2 − λ))</translation>
    </message>
    <message>
        <source>A value outside its limits asks for a look at the standard before it is used again. Limits from few values are provisional.</source>
        <translation>Ein Wert außerhalb seiner Grenzen verlangt einen Blick auf das Normal, bevor es wieder verwendet wird. Grenzen aus wenigen Werten sind vorläufig.</translation>
    </message>
    <message>
        <source>NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 and 6.3.2.4</source>
        <translation>NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 und 6.3.2.4</translation>
    </message>
    <message>
        <source>Hours and days of the plan</source>
        <translation>Stunden und Tage des Plans</translation>
    </message>
    <message>
        <source>minutes of a day = Σ visits, one cabinet&apos;s together</source>
        <translation>Minuten eines Tages = Σ Einsätze, die eines Schranks zusammen</translation>
    </message>
    <message>
        <source>Earliest due first, within the weekly hours of each person, on working days, with standards valid that day. What does not fit is listed with the reason.</source>
        <translation>Das zuerst Fällige zuerst, innerhalb der Wochenstunden jeder Person, an Arbeitstagen, mit Normalen, die an dem Tag gültig sind. Was nicht passt, steht mit dem Grund in einer Liste.</translation>
    </message>
    <message>
        <source>Digest</source>
        <translation>Prüfsumme</translation>
    </message>
    <message>
        <source>SHA-256 of the rows</source>
        <translation>SHA-256 der Zeilen</translation>
    </message>
    <message>
        <source>A fingerprint of a calibration with its readings and standards. Signatures, the journal and certificates hold it: a change afterwards is found by checking the record.</source>
        <translation>Ein Fingerabdruck einer Kalibrierung mit Ablesungen und Normalen. Unterschriften, Journal und Kalibrierscheine enthalten ihn: eine spätere Änderung findet die Prüfung der Akte.</translation>
    </message>
    <message>
        <source>FIPS 180-4</source>
        <translation>FIPS 180-4</translation>
    </message>
</context>
<context>
    <name>Main</name>
    <message>
        <source>The screen &quot;%1&quot; needs a record; name one, or give --sample.</source>
        <translation>Die Seite „%1“ braucht eine Akte; eine nennen oder --sample angeben.</translation>
    </message>
    <message>
        <source>There is no channel &quot;%1&quot; in this record.</source>
        <translation>In dieser Akte gibt es keinen Kanal „%1“.</translation>
    </message>
    <message>
        <source>The picture %1 could not be written; check the folder.</source>
        <translation>Das Bild %1 ließ sich nicht schreiben; den Ordner prüfen.</translation>
    </message>
    <message>
        <source>The sample record is not beside the program; make it with sample_sites/run.</source>
        <translation>Die Beispielakte liegt nicht beim Programm; mit sample_sites/run anlegen.</translation>
    </message>
</context>
<context>
    <name>spanwright</name>
    <message>
        <source>digits, Enter</source>
        <translation>Ziffern, Enter</translation>
    </message>
    <message>
        <source>In the entry sheet: put in a reading and go on to the next</source>
        <translation>Im Erfassungsblatt: eine Ablesung eintragen und zur nächsten gehen</translation>
    </message>
    <message>
        <source>arrows, F2, Esc</source>
        <translation>Pfeile, F2, Esc</translation>
    </message>
    <message>
        <source>In the entry sheet: move, change what is there, leave it as it was</source>
        <translation>Im Erfassungsblatt: bewegen, Vorhandenes ändern, lassen wie es war</translation>
    </message>
    <message>
        <source>Delete</source>
        <translation>Entf</translation>
    </message>
    <message>
        <source>In the entry sheet: empty the cell</source>
        <translation>Im Erfassungsblatt: das Feld leeren</translation>
    </message>
    <message>
        <source>Alt+T, Alt+P, Alt+D</source>
        <translation>Alt+T, Alt+P, Alt+D</translation>
    </message>
    <message>
        <source>In a visit: go to the standards, confirm the cautions, go to what was done</source>
        <translation>Im Einsatz: zu den Normalen gehen, die Sicherheitshinweise bestätigen, zu dem gehen, was durchgeführt wurde</translation>
    </message>
    <message>
        <source>Space</source>
        <translation>Leertaste</translation>
    </message>
    <message>
        <source>Tick a box or a standard</source>
        <translation>Ein Kästchen oder ein Normal anhaken</translation>
    </message>
    <message>
        <source>predicted</source>
        <translation>vorhergesagt</translation>
    </message>
    <message>
        <source>Tolerance</source>
        <translation>Toleranz</translation>
    </message>
    <message>
        <source>Input [% of span]</source>
        <translation>Eingang [% der Spanne]</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Messabweichung</translation>
    </message>
    <message>
        <source>Calibration record and drift of a site&apos;s measuring channels.</source>
        <translation>Kalibrierakte und Drift der Messkanäle eines Standorts.</translation>
    </message>
    <message>
        <source>record file to open</source>
        <translation>zu öffnende Aktendatei</translation>
    </message>
    <message>
        <source>start with the sample record (an invented site)</source>
        <translation>mit der Beispielakte beginnen (ein erfundener Standort)</translation>
    </message>
    <message>
        <source>screen to show first; &quot;list&quot; prints the names</source>
        <translation>Seite, die zuerst gezeigt wird; „list“ gibt die Namen aus</translation>
    </message>
    <message>
        <source>channel the screen is about</source>
        <translation>Kanal, um den es auf der Seite geht</translation>
    </message>
    <message>
        <source>channel, sensor or loop, for the entry sheet</source>
        <translation>channel, sensor oder loop, für das Erfassungsblatt</translation>
    </message>
    <message>
        <source>size of the window, for instance 1280x720</source>
        <translation>Größe des Fensters, zum Beispiel 1280x720</translation>
    </message>
    <message>
        <source>dark colours</source>
        <translation>dunkle Farben</translation>
    </message>
    <message>
        <source>system, en or de; without it, what was chosen last</source>
        <translation>system, en oder de; ohne Angabe die zuletzt gewählte Sprache</translation>
    </message>
    <message>
        <source>take this day as today, for instance 2026-11-25</source>
        <translation>diesen Tag als heute nehmen, zum Beispiel 2026-11-25</translation>
    </message>
    <message>
        <source>draw the screen into this PNG file without a display, and end</source>
        <translation>die Seite ohne Bildschirm in diese PNG-Datei zeichnen und enden</translation>
    </message>
    <message>
        <source>show this help</source>
        <translation>diese Hilfe zeigen</translation>
    </message>
    <message>
        <source>show the version</source>
        <translation>die Version zeigen</translation>
    </message>
    <message>
        <source>The size &quot;%1&quot; is not understood; give width x height from 640x480 to 8192x8192, for instance 1280x720.</source>
        <translation>Die Größe „%1“ ist nicht verständlich; Breite x Höhe von 640x480 bis 8192x8192 angeben, zum Beispiel 1280x720.</translation>
    </message>
    <message>
        <source>There is no screen &quot;%1&quot;; the screens are %2.</source>
        <translation>Es gibt keine Seite „%1“; die Seiten sind %2.</translation>
    </message>
    <message>
        <source>Give one record, not %1.</source>
        <translation>Eine Akte angeben, nicht %1.</translation>
    </message>
    <message>
        <source>There is no subject &quot;%1&quot;; give channel, sensor or loop.</source>
        <translation>Es gibt keinen Gegenstand „%1“; channel, sensor oder loop angeben.</translation>
    </message>
    <message>
        <source>The day &quot;%1&quot; is not understood; write it as 2026-11-25.</source>
        <translation>Der Tag „%1“ ist nicht verständlich; ihn wie 2026-11-25 schreiben.</translation>
    </message>
    <message>
        <source>There is no language &quot;%1&quot;; give system, en or de.</source>
        <translation>Es gibt keine Sprache „%1“; system, en oder de angeben.</translation>
    </message>
    <message>
        <source>&amp;System</source>
        <translation>S&amp;ystem</translation>
    </message>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>more than a limit of nothing allows</source>
        <translation>mehr, als eine Grenze von null zulässt</translation>
    </message>
    <message>
        <source>%1 of tolerance</source>
        <translation>%1 der Toleranz</translation>
    </message>
    <message>
        <source>Shift zero by %1 before the square root</source>
        <translation>Nullpunkt vor der Radizierung um %1 verschieben</translation>
    </message>
    <message>
        <source>Shift span by %1 % before the square root</source>
        <translation>Spanne vor der Radizierung um %1 % ändern</translation>
    </message>
    <message>
        <source>Shift zero by %1 and span by %2 % before the square root</source>
        <translation>Vor der Radizierung Nullpunkt um %1 verschieben und Spanne um %2 % ändern</translation>
    </message>
    <message>
        <source>Shift zero by %1</source>
        <translation>Nullpunkt um %1 verschieben</translation>
    </message>
    <message>
        <source>Shift span by %1 %</source>
        <translation>Spanne um %1 % ändern</translation>
    </message>
    <message>
        <source>Shift zero by %1 and span by %2 %</source>
        <translation>Nullpunkt um %1 verschieben und Spanne um %2 % ändern</translation>
    </message>
    <message>
        <source>repeats of one point differ by more than the tolerance holds</source>
        <translation>Wiederholungen eines Messpunkts liegen weiter auseinander, als die Toleranz fasst</translation>
    </message>
    <message>
        <source>up and down readings of one point differ by more than the tolerance holds</source>
        <translation>steigende und fallende Ablesungen eines Messpunkts liegen weiter auseinander, als die Toleranz fasst</translation>
    </message>
    <message>
        <source>the steps of the reading are too far apart for the tolerance</source>
        <translation>die Stufen der Anzeige sind für die Toleranz zu grob</translation>
    </message>
    <message>
        <source>the correction needed is beyond the range of the trims</source>
        <translation>die nötige Korrektur übersteigt den Stellbereich der Justierung</translation>
    </message>
    <message>
        <source>the errors do not lie along a line</source>
        <translation>die Messabweichungen liegen nicht auf einer Geraden</translation>
    </message>
    <message>
        <source>no correction makes it better</source>
        <translation>keine Korrektur verbessert es</translation>
    </message>
    <message>
        <source>repeats of one point differ by more than adjusting would gain</source>
        <translation>Wiederholungen eines Messpunkts streuen mehr, als Justieren brächte</translation>
    </message>
    <message>
        <source>the sheet has no points of value, so there is no zero and span to set</source>
        <translation>das Blatt hat keine Messpunkte mit Wert, also sind weder Nullpunkt noch Spanne einzustellen</translation>
    </message>
    <message>
        <source>one point of value has neither a reading nor a reason for its lack</source>
        <translation>ein Messpunkt mit Wert hat weder eine Ablesung noch einen Grund für ihr Fehlen</translation>
    </message>
    <message>
        <source>%1 points of value have neither a reading nor a reason for their lack</source>
        <translation>%1 Messpunkte mit Wert haben weder eine Ablesung noch einen Grund für ihr Fehlen</translation>
    </message>
    <message>
        <source>readings at two different test points at least are needed</source>
        <translation>mindestens zwei verschiedene Messpunkte müssen abgelesen sein</translation>
    </message>
    <message>
        <source>%1: the worst point would use %2, now %3.</source>
        <translation>%1: der ungünstigste Messpunkt würde %2 nutzen, jetzt %3.</translation>
    </message>
    <message>
        <source>Adjusting is not worth it: the worst point uses %1, the limit for adjusting is %2 %.</source>
        <translation>Justieren lohnt nicht: der ungünstigste Messpunkt nutzt %1, die Justiergrenze ist %2 %.</translation>
    </message>
    <message>
        <source>Adjusting cannot help: the worst point uses %1, and %2.</source>
        <translation>Justieren hilft nicht: der ungünstigste Messpunkt nutzt %1, und %2.</translation>
    </message>
    <message>
        <source>Adjusting is not worth it: the worst point uses %1, and %2.</source>
        <translation>Justieren lohnt nicht: der ungünstigste Messpunkt nutzt %1, und %2.</translation>
    </message>
    <message>
        <source>the couple or a lead is open, the input stands at its upper end</source>
        <translation>das Thermoelement oder eine Leitung ist unterbrochen, der Eingang steht am oberen Ende</translation>
    </message>
    <message>
        <source>the couple or a lead is open, the input stands at its lower end</source>
        <translation>das Thermoelement oder eine Leitung ist unterbrochen, der Eingang steht am unteren Ende</translation>
    </message>
    <message>
        <source>the leads are shorted where it is %1</source>
        <translation>die Leitungen haben Kurzschluss an einer Stelle mit %1</translation>
    </message>
    <message>
        <source>the leads are reversed</source>
        <translation>die Leitungen sind vertauscht</translation>
    </message>
    <message>
        <source>the couple is a type %1</source>
        <translation>das Thermoelement ist vom Typ %1</translation>
    </message>
    <message>
        <source>the input takes its terminals to be at %1</source>
        <translation>der Eingang nimmt für seine Klemmen %1 an</translation>
    </message>
    <message>
        <source>the extension leads are reversed at both ends, the join being at %1</source>
        <translation>die Ausgleichsleitung ist an beiden Enden vertauscht, die Verbindungsstelle liegt bei %1</translation>
    </message>
    <message>
        <source>the mV were fed through copper leads to terminals at %1, and the reference junction is not given</source>
        <translation>die mV wurden über Kupferleitungen an Klemmen mit %1 gegeben, und die Vergleichsstelle ist nicht angegeben</translation>
    </message>
    <message>
        <source>the element or a lead is open, the input stands at its upper end</source>
        <translation>der Messwiderstand oder eine Leitung ist unterbrochen, der Eingang steht am oberen Ende</translation>
    </message>
    <message>
        <source>the element or a lead is open, the input stands at its lower end</source>
        <translation>der Messwiderstand oder eine Leitung ist unterbrochen, der Eingang steht am unteren Ende</translation>
    </message>
    <message>
        <source>the element or its leads are shorted, the input stands at its lower end</source>
        <translation>der Messwiderstand oder seine Leitungen haben Kurzschluss, der Eingang steht am unteren Ende</translation>
    </message>
    <message>
        <source>the element is a Pt100</source>
        <translation>der Messwiderstand ist ein Pt100</translation>
    </message>
    <message>
        <source>the element is a Pt1000</source>
        <translation>der Messwiderstand ist ein Pt1000</translation>
    </message>
    <message>
        <source>Nothing can be said about adjusting: %1.</source>
        <translation>Zum Justieren lässt sich nichts sagen: %1.</translation>
    </message>
    <message>
        <source>It looks as if %1.</source>
        <translation>Es sieht danach aus: %1.</translation>
    </message>
    <message>
        <source>, or </source>
        <translation>, oder </translation>
    </message>
    <message>
        <source>zero error %1</source>
        <translation>Nullpunktabweichung %1</translation>
    </message>
    <message>
        <source>span error %1</source>
        <translation>Spannenabweichung %1</translation>
    </message>
    <message>
        <source>largest error %1</source>
        <translation>größte Messabweichung %1</translation>
    </message>
    <message>
        <source>linearity ±%1</source>
        <translation>Linearität ±%1</translation>
    </message>
    <message>
        <source>hysteresis %1</source>
        <translation>Hysterese %1</translation>
    </message>
    <message>
        <source>repeatability %1</source>
        <translation>Wiederholbarkeit %1</translation>
    </message>
    <message>
        <source>As found, % of span: %1</source>
        <translation>Wie vorgefunden, % der Spanne: %1</translation>
    </message>
    <message>
        <source>As left, % of span: %1</source>
        <translation>Wie hinterlassen, % der Spanne: %1</translation>
    </message>
    <message>
        <source>Sign as performed</source>
        <translation>Als durchgeführt unterschreiben</translation>
    </message>
    <message>
        <source>Sign as reviewed</source>
        <translation>Als geprüft unterschreiben</translation>
    </message>
    <message>
        <source>Sign as approved</source>
        <translation>Als freigegeben unterschreiben</translation>
    </message>
    <message>
        <source>Send back</source>
        <translation>Zurückgeben</translation>
    </message>
    <message>
        <source>Withdraw</source>
        <translation>Zurückziehen</translation>
    </message>
    <message>
        <source>These are my readings as I made them. It then waits for a review.</source>
        <translation>Das sind meine Ablesungen, wie ich sie gemacht habe. Danach wartet sie auf eine Prüfung.</translation>
    </message>
    <message>
        <source>I looked at the readings and at what they rest on. It then waits for approval.</source>
        <translation>Ich habe die Ablesungen angesehen und worauf sie beruhen. Danach wartet sie auf die Freigabe.</translation>
    </message>
    <message>
        <source>It is released; its certificate carries no mark any more.</source>
        <translation>Sie ist freigegeben; ihr Kalibrierschein trägt keinen Vermerk mehr.</translation>
    </message>
    <message>
        <source>It proves nothing until its technician signs it again or corrects it.</source>
        <translation>Sie weist nichts nach, bis ihr Techniker sie erneut unterschreibt oder berichtigt.</translation>
    </message>
    <message>
        <source>It stays visible and counts for nothing. This cannot be taken back.</source>
        <translation>Sie bleibt sichtbar und zählt nicht mehr. Das lässt sich nicht rückgängig machen.</translation>
    </message>
    <message>
        <source>%1 by calibration %2</source>
        <translation>%1 durch Kalibrierung %2</translation>
    </message>
    <message>
        <source>%1 by %2 (%3)</source>
        <translation>%1 von %2 (%3)</translation>
    </message>
    <message>
        <source>%1, %2 UTC</source>
        <translation>%1, %2 UTC</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Nobody has signed it yet.</source>
        <translation>Noch niemand hat sie unterschrieben.</translation>
    </message>
    <message>
        <source>no standard is ticked</source>
        <translation>kein Normal ist angehakt</translation>
    </message>
    <message>
        <source>no ticked standard has a certificate valid on the day</source>
        <translation>kein angehaktes Normal hat an diesem Tag einen gültigen Kalibrierschein</translation>
    </message>
    <message>
        <source>no ticked standard has a certificate for %1</source>
        <translation>kein angehaktes Normal hat einen Kalibrierschein für %1</translation>
    </message>
    <message>
        <source>no ticked standard&apos;s certificate reaches %1</source>
        <translation>der Kalibrierschein keines angehakten Normals reicht bis %1</translation>
    </message>
    <message>
        <source>none can be brought to the reading at %1</source>
        <translation>bei %1 lässt sich keine auf die Anzeige umrechnen</translation>
    </message>
    <message>
        <source>there is nothing to make one from</source>
        <translation>es fehlt alles, woraus sie zu bilden wäre</translation>
    </message>
    <message>
        <source>the plan&apos;s decision rule needs an uncertainty, and %1.</source>
        <translation>die Entscheidungsregel des Plans braucht eine Messunsicherheit, und %1.</translation>
    </message>
    <message>
        <source>low-low</source>
        <translation>tief-tief</translation>
    </message>
    <message>
        <source>low</source>
        <translation>tief</translation>
    </message>
    <message>
        <source>high</source>
        <translation>hoch</translation>
    </message>
    <message>
        <source>high-high</source>
        <translation>hoch-hoch</translation>
    </message>
    <message>
        <source>%1 % up</source>
        <translation>%1 % steigend</translation>
    </message>
    <message>
        <source>%1 % down</source>
        <translation>%1 % fallend</translation>
    </message>
    <message>
        <source>turns on</source>
        <translation>schaltet ein</translation>
    </message>
    <message>
        <source>turns off</source>
        <translation>schaltet aus</translation>
    </message>
    <message>
        <source>%1 alarm trips</source>
        <translation>Alarm %1 löst aus</translation>
    </message>
    <message>
        <source>%1 alarm resets</source>
        <translation>Alarm %1 fällt ab</translation>
    </message>
    <message>
        <source>commanded on</source>
        <translation>angesteuert ein</translation>
    </message>
    <message>
        <source>commanded off</source>
        <translation>angesteuert aus</translation>
    </message>
    <message>
        <source>loss of communication</source>
        <translation>Kommunikationsausfall</translation>
    </message>
    <message>
        <source>Unproven</source>
        <translation>Ohne Nachweis</translation>
    </message>
    <message>
        <source>Overdue</source>
        <translation>Überfällig</translation>
    </message>
    <message>
        <source>In grace</source>
        <translation>In Nachfrist</translation>
    </message>
    <message>
        <source>Due soon</source>
        <translation>Bald fällig</translation>
    </message>
    <message>
        <source>Proven</source>
        <translation>Gültig</translation>
    </message>
    <message>
        <source>pass</source>
        <translation>bestanden</translation>
    </message>
    <message>
        <source>fail</source>
        <translation>nicht bestanden</translation>
    </message>
    <message>
        <source>not judged</source>
        <translation>nicht bewertet</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Sensor</source>
        <translation>Sensor</translation>
    </message>
    <message>
        <source>Loop</source>
        <translation>Messkreis</translation>
    </message>
    <message>
        <source>channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>sensor</source>
        <translation>Sensor</translation>
    </message>
    <message>
        <source>loop</source>
        <translation>Messkreis</translation>
    </message>
    <message>
        <source>as found</source>
        <translation>wie vorgefunden</translation>
    </message>
    <message>
        <source>as left</source>
        <translation>wie hinterlassen</translation>
    </message>
    <message>
        <source>first calibration</source>
        <translation>erste Kalibrierung</translation>
    </message>
    <message>
        <source>adjustment</source>
        <translation>Justierung</translation>
    </message>
    <message>
        <source>repair</source>
        <translation>Reparatur</translation>
    </message>
    <message>
        <source>new setup</source>
        <translation>neue Parametrierung</translation>
    </message>
    <message>
        <source>another sensor</source>
        <translation>anderer Sensor</translation>
    </message>
    <message>
        <source>technician</source>
        <translation>Techniker</translation>
    </message>
    <message>
        <source>planner</source>
        <translation>Planer</translation>
    </message>
    <message>
        <source>reviewer</source>
        <translation>Prüfer</translation>
    </message>
    <message>
        <source>administrator</source>
        <translation>Verwalter</translation>
    </message>
    <message>
        <source>recorded</source>
        <translation>erfasst</translation>
    </message>
    <message>
        <source>performed</source>
        <translation>durchgeführt</translation>
    </message>
    <message>
        <source>reviewed</source>
        <translation>geprüft</translation>
    </message>
    <message>
        <source>approved</source>
        <translation>freigegeben</translation>
    </message>
    <message>
        <source>sent back</source>
        <translation>zurückgegeben</translation>
    </message>
    <message>
        <source>withdrawn</source>
        <translation>zurückgezogen</translation>
    </message>
    <message>
        <source>superseded</source>
        <translation>ersetzt</translation>
    </message>
    <message>
        <source>%1, run %2</source>
        <translation>%1, Durchgang %2</translation>
    </message>
    <message>
        <source>threshold input</source>
        <translation>Schwellwerteingang</translation>
    </message>
    <message>
        <source>analog input</source>
        <translation>Analogeingang</translation>
    </message>
    <message>
        <source>thermocouple input</source>
        <translation>Thermoelementeingang</translation>
    </message>
    <message>
        <source>RTD input</source>
        <translation>Widerstandsthermometereingang</translation>
    </message>
    <message>
        <source>analog output</source>
        <translation>Analogausgang</translation>
    </message>
    <message>
        <source>discrete output</source>
        <translation>Binärausgang</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>d MMM yyyy</source>
        <comment>a day that is read</comment>
        <translation>dd.MM.yyyy</translation>
    </message>
    <message>
        <source>yyyy-MM-dd</source>
        <comment>a day that is typed</comment>
        <translation>dd.MM.yyyy</translation>
    </message>
    <message>
        <source>yyyy-MM-dd HH:mm</source>
        <comment>a moment that is typed</comment>
        <translation>dd.MM.yyyy HH:mm</translation>
    </message>
    <message>
        <source>1 day</source>
        <translation>1 Tag</translation>
    </message>
    <message>
        <source>%1 days</source>
        <translation>%1 Tage</translation>
    </message>
    <message>
        <source>%1 trip</source>
        <translation>Auslösung %1</translation>
    </message>
    <message>
        <source>%1 reset</source>
        <translation>Rückfall %1</translation>
    </message>
    <message>
        <source>on</source>
        <translation>ein</translation>
    </message>
    <message>
        <source>off</source>
        <translation>aus</translation>
    </message>
    <message>
        <source>other test points</source>
        <translation>andere Messpunkte</translation>
    </message>
    <message>
        <source>own readings</source>
        <translation>eigene Ablesungen</translation>
    </message>
    <message>
        <source>like subjects</source>
        <translation>ähnliche Gegenstände</translation>
    </message>
    <message>
        <source>valid</source>
        <translation>gültig</translation>
    </message>
    <message>
        <source>runs out soon</source>
        <translation>läuft bald ab</translation>
    </message>
    <message>
        <source>ran out</source>
        <translation>abgelaufen</translation>
    </message>
    <message>
        <source>no certificate</source>
        <translation>kein Kalibrierschein</translation>
    </message>
    <message>
        <source>use allowed</source>
        <translation>Verwendung erlaubt</translation>
    </message>
    <message>
        <source>out of service</source>
        <translation>außer Betrieb</translation>
    </message>
    <message>
        <source>back in service</source>
        <translation>wieder in Betrieb</translation>
    </message>
    <message>
        <source>last day today</source>
        <translation>heute letzter Tag</translation>
    </message>
    <message>
        <source>1 day left</source>
        <translation>noch 1 Tag</translation>
    </message>
    <message>
        <source>%1 days left</source>
        <translation>noch %1 Tage</translation>
    </message>
    <message>
        <source>ran out yesterday</source>
        <translation>gestern abgelaufen</translation>
    </message>
    <message>
        <source>ran out %1 days ago</source>
        <translation>vor %1 Tagen abgelaufen</translation>
    </message>
    <message>
        <source>Ctrl+V</source>
        <translation>Strg+V</translation>
    </message>
    <message>
        <source>In the entry sheet: put in a column of values from here down</source>
        <translation>Im Erfassungsblatt: eine Spalte von Werten von hier abwärts einfügen</translation>
    </message>
    <message>
        <source>Nothing can be written to %1; choose another folder.</source>
        <translation>Nach %1 kann nichts geschrieben werden; einen anderen Ordner wählen.</translation>
    </message>
    <message>
        <source>%1 is issued but could not be put into the folder; it lies in %2.</source>
        <translation>%1 ist ausgestellt, konnte aber nicht in den Ordner gelegt werden; es liegt in %2.</translation>
    </message>
    <message>
        <source>Write the round sheet</source>
        <translation>Rundgangsblatt schreiben</translation>
    </message>
    <message>
        <source>PDF files (*.pdf)</source>
        <translation>PDF-Dateien (*.pdf)</translation>
    </message>
    <message>
        <source>The sheet with %1 is written to %2.</source>
        <translation>Das Blatt mit %1 ist nach %2 geschrieben.</translation>
    </message>
    <message>
        <source>1 page</source>
        <translation>1 Seite</translation>
    </message>
    <message>
        <source>%1 pages</source>
        <translation>%1 Seiten</translation>
    </message>
    <message>
        <source>%1 for %2?</source>
        <translation>%1 statt %2?</translation>
    </message>
    <message>
        <source>is %1 the reading of %2?</source>
        <translation>ist %1 die Ablesung von %2?</translation>
    </message>
    <message>
        <source>is %1 right? It is off by %2, where about %3 is usual</source>
        <translation>stimmt %1? Die Messabweichung ist %2, üblich ist etwa %3</translation>
    </message>
    <message>
        <source>open</source>
        <translation>offen</translation>
    </message>
    <message>
        <source>until %1</source>
        <translation>bis %1</translation>
    </message>
    <message>
        <source>still in force</source>
        <translation>noch in Kraft</translation>
    </message>
    <message>
        <source>%1, in force from %2, %3
%4</source>
        <translation>%1, in Kraft ab %2, %3
%4</translation>
    </message>
    <message>
        <source>%1 revision %2, %3
%4
Tolerance %5; decided by %6</source>
        <translation>%1 Ausgabe %2, %3
%4
Toleranz %5; entschieden nach %6</translation>
    </message>
    <message>
        <source>%1 °C</source>
        <translation>%1 °C</translation>
    </message>
    <message>
        <source>%1 % humidity</source>
        <translation>%1 % Feuchte</translation>
    </message>
    <message>
        <source>⚠ certificate %1 is not in the register</source>
        <translation>⚠ Kalibrierschein %1 steht nicht im Verzeichnis</translation>
    </message>
    <message>
        <source>%1
certificate %2 of %3, valid %4 to %5%6
traceable %7</source>
        <translation>%1
Kalibrierschein %2 von %3, gültig %4 bis %5%6
Rückführung: %7</translation>
    </message>
    <message>
        <source> (⚠ not on the day)</source>
        <translation> (⚠ nicht an dem Tag)</translation>
    </message>
    <message>
        <source>– not stated</source>
        <translation>– nicht angegeben</translation>
    </message>
    <message>
        <source>repaired</source>
        <translation>repariert</translation>
    </message>
    <message>
        <source>adjusted</source>
        <translation>justiert</translation>
    </message>
    <message>
        <source>left as found</source>
        <translation>gelassen wie vorgefunden</translation>
    </message>
    <message>
        <source>%1, issued %2 UTC</source>
        <translation>%1, ausgestellt %2 UTC</translation>
    </message>
    <message>
        <source>none issued</source>
        <translation>keiner ausgestellt</translation>
    </message>
    <message>
        <source>Applied</source>
        <translation>Vorgabe</translation>
    </message>
    <message>
        <source>Measured</source>
        <translation>Gemessen</translation>
    </message>
    <message>
        <source>⚠ %1: no named standard&apos;s certificate reaches it</source>
        <translation>⚠ %1: kein Kalibrierschein eines genannten Normals reicht dorthin</translation>
    </message>
    <message>
        <source>%1 by %2, certificate %3 says there: error %4, U %5 with k = %6</source>
        <translation>%1 von %2, Kalibrierschein %3 sagt dort: Messabweichung %4, U %5 mit k = %6</translation>
    </message>
    <message>
        <source>together, root sum of squares</source>
        <translation>zusammen, Wurzel der Quadratsumme</translation>
    </message>
    <message>
        <source>k for 95.45 %</source>
        <translation>k für 95,45 %</translation>
    </message>
    <message>
        <source>expanded uncertainty U</source>
        <translation>erweiterte Messunsicherheit U</translation>
    </message>
    <message>
        <source>entered</source>
        <translation>eingegeben</translation>
    </message>
    <message>
        <source>from %1</source>
        <translation>aus %1</translation>
    </message>
    <message>
        <source>%1 UTC, %2</source>
        <translation>%1 UTC, %2</translation>
    </message>
    <message>
        <source>All numbers agree with a recomputation from what was typed.</source>
        <translation>Alle Zahlen stimmen mit einer Nachrechnung aus dem Getippten überein.</translation>
    </message>
    <message>
        <source>1 number differs from a recomputation from what was typed.</source>
        <translation>1 Zahl weicht von einer Nachrechnung aus dem Getippten ab.</translation>
    </message>
    <message>
        <source>%1 numbers differ from a recomputation from what was typed.</source>
        <translation>%1 Zahlen weichen von einer Nachrechnung aus dem Getippten ab.</translation>
    </message>
    <message>
        <source>Performed</source>
        <translation>Durchgeführt</translation>
    </message>
    <message>
        <source>%1 by %2</source>
        <translation>%1 von %2</translation>
    </message>
    <message>
        <source>Recorded</source>
        <translation>Erfasst</translation>
    </message>
    <message>
        <source>Setup</source>
        <translation>Parametrierung</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>Plan</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>Conditions</source>
        <translation>Bedingungen</translation>
    </message>
    <message>
        <source>Reference junction</source>
        <translation>Vergleichsstelle</translation>
    </message>
    <message>
        <source>Done</source>
        <translation>Getan</translation>
    </message>
    <message>
        <source>Remarks</source>
        <translation>Bemerkungen</translation>
    </message>
    <message>
        <source>Corrects</source>
        <translation>Berichtigt</translation>
    </message>
    <message>
        <source>calibration %1: %2</source>
        <translation>Kalibrierung %1: %2</translation>
    </message>
    <message>
        <source>Signatures</source>
        <translation>Unterschriften</translation>
    </message>
    <message>
        <source>Certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>Links that are missing</source>
        <translation>Fehlende Glieder</translation>
    </message>
    <message>
        <source>Differs from the recomputation</source>
        <translation>Weicht von der Nachrechnung ab</translation>
    </message>
    <message>
        <source>Skipped</source>
        <translation>Übersprungen</translation>
    </message>
    <message>
        <source>Typed</source>
        <translation>Getippt</translation>
    </message>
    <message>
        <source>%1 applied, %2 read; by %3, recorded %4</source>
        <translation>%1 vorgegeben, %2 abgelesen; von %3, erfasst %4</translation>
    </message>
    <message>
        <source>nominal</source>
        <translation>Nennwert</translation>
    </message>
    <message>
        <source>Expected</source>
        <translation>Sollanzeige</translation>
    </message>
    <message>
        <source>%1 for %2, by setup %3</source>
        <translation>%1 für %2, nach Parametrierung %3</translation>
    </message>
    <message>
        <source>%1 − %2 = %3</source>
        <translation>%1 − %2 = %3</translation>
    </message>
    <message>
        <source>%1 to %2%3</source>
        <translation>%1 bis %2%3</translation>
    </message>
    <message>
        <source>, widened to one step of the reading</source>
        <translation>, erweitert auf einen Schritt der Anzeige</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Bewertung</translation>
    </message>
    <message>
        <source>Visit before</source>
        <translation>Einsatz davor</translation>
    </message>
    <message>
        <source>calibration %1 left %2; since then %3</source>
        <translation>Kalibrierung %1 hinterließ %2; seither %3</translation>
    </message>
    <message>
        <source>Standards</source>
        <translation>Normale</translation>
    </message>
    <message>
        <source>Uncertainty, as each source contributes</source>
        <translation>Unsicherheit, wie jede Quelle beiträgt</translation>
    </message>
    <message>
        <source>No budget: nothing says how well the value was known.</source>
        <translation>Kein Budget: nichts sagt, wie gut der Wert bekannt war.</translation>
    </message>
    <message>
        <source>A recomputation from what was typed gives the same.</source>
        <translation>Eine Nachrechnung aus dem Getippten ergibt dasselbe.</translation>
    </message>
    <message>
        <source>is %1 right? It is off by %2, where %3 is allowed</source>
        <translation>stimmt %1? Die Messabweichung ist %2, erlaubt ist %3</translation>
    </message>
    <message>
        <source>arrows, + and -, Home</source>
        <translation>Pfeiltasten, + und -, Pos1</translation>
    </message>
    <message>
        <source>In a chart over time: move, zoom, show all of it; or drag and turn the wheel</source>
        <translation>In einem Diagramm über der Zeit: verschieben, vergrößern, alles zeigen; oder ziehen und am Rad drehen</translation>
    </message>
    <message>
        <source>light colours</source>
        <translation>helle Farben</translation>
    </message>
    <message>
        <source>colours of high contrast</source>
        <translation>Farben mit hohem Kontrast</translation>
    </message>
    <message>
        <source>100, 125, 150, 175 or 200 percent of the machine&apos;s own text</source>
        <translation>100, 125, 150, 175 oder 200 Prozent der Schrift dieses Rechners</translation>
    </message>
    <message>
        <source>Give one of --light, --dark and --contrast, not several.</source>
        <translation>Eines von --light, --dark und --contrast angeben, nicht mehrere.</translation>
    </message>
    <message>
        <source>The text size &quot;%1&quot; is not one there is; give 100, 125, 150, 175 or 200.</source>
        <translation>Die Schriftgröße „%1“ gibt es nicht; 100, 125, 150, 175 oder 200 angeben.</translation>
    </message>
    <message>
        <source>no certificate of it is older</source>
        <translation>kein Kalibrierschein von ihm ist älter</translation>
    </message>
    <message>
        <source>so it was decided</source>
        <translation>so wurde entschieden</translation>
    </message>
    <message>
        <source>the newest that does not show yet what was found</source>
        <translation>der neueste, der noch nicht zeigt, was gefunden wurde</translation>
    </message>
    <message>
        <source>the newest that can be compared; none contradicts what was found</source>
        <translation>der neueste, der sich vergleichen lässt; keiner widerspricht dem Befund</translation>
    </message>
    <message>
        <source>the newest; none has a value in common with what was found</source>
        <translation>der neueste; keiner hat einen Wert mit dem Befund gemeinsam</translation>
    </message>
    <message>
        <source>No certificate of it is older, so every calibration made with it is in doubt.</source>
        <translation>Kein Kalibrierschein von ihm ist älter, also ist jede Kalibrierung mit ihm zweifelhaft.</translation>
    </message>
    <message>
        <source>Last good certificate: %1, valid from %2: %3.</source>
        <translation>Letzter guter Kalibrierschein: %1, gültig ab %2: %3.</translation>
    </message>
    <message>
        <source>Passed over, because they already show what was found: %1.</source>
        <translation>Übergangen, weil sie schon zeigen, was gefunden wurde: %1.</translation>
    </message>
    <message>
        <source>What was found agrees with it within both uncertainties.</source>
        <translation>Der Befund stimmt mit ihm innerhalb beider Messunsicherheiten überein.</translation>
    </message>
    <message>
        <source>No calibration was made with it since.</source>
        <translation>Seither wurde keine Kalibrierung mit ihm gemacht.</translation>
    </message>
    <message>
        <source>1 calibration was made with it since; with the error found, %2 change verdict.</source>
        <translation>1 Kalibrierung wurde seither mit ihm gemacht; mit der gefundenen Messabweichung ändert sich die Bewertung bei %2.</translation>
    </message>
    <message>
        <source>%1 calibrations were made with it since; with the error found, %2 change verdict.</source>
        <translation>%1 Kalibrierungen wurden seither mit ihm gemacht; mit der gefundenen Messabweichung ändert sich die Bewertung bei %2.</translation>
    </message>
    <message>
        <source>1 point lies up to 5 % beyond the values found; the error of the nearest one was used there.</source>
        <translation>1 Messpunkt liegt bis zu 5 % jenseits der gefundenen Werte; dort gilt die Messabweichung des nächsten.</translation>
    </message>
    <message>
        <source>%1 points lie up to 5 % beyond the values found; the error of the nearest one was used there.</source>
        <translation>%1 Messpunkte liegen bis zu 5 % jenseits der gefundenen Werte; dort gilt die Messabweichung des nächsten.</translation>
    </message>
    <message>
        <source>1 point rests on a range of the standard that the finding does not mention; it was left as it is. Add the range if it was checked.</source>
        <translation>1 Messpunkt beruht auf einem Bereich des Normals, den der Befund nicht nennt; er blieb, wie er war. Den Bereich ergänzen, falls er geprüft wurde.</translation>
    </message>
    <message>
        <source>%1 points rest on a range of the standard that the finding does not mention; they were left as they are. Add the range if it was checked.</source>
        <translation>%1 Messpunkte beruhen auf einem Bereich des Normals, den der Befund nicht nennt; sie blieben, wie sie waren. Den Bereich ergänzen, falls er geprüft wurde.</translation>
    </message>
    <message>
        <source>%1 → %2</source>
        <translation>%1 → %2</translation>
    </message>
    <message>
        <source>visit again</source>
        <translation>erneuter Einsatz</translation>
    </message>
    <message>
        <source>cleared by %1</source>
        <translation>geklärt durch %1</translation>
    </message>
    <message>
        <source>unchanged</source>
        <translation>unverändert</translation>
    </message>
    <message>
        <source>no visit needed</source>
        <translation>kein Einsatz nötig</translation>
    </message>
</context>
<context>
    <name>spanwright::CalibrationsModel</name>
    <message>
        <source>%1 by %2</source>
        <translation>%1 durch %2</translation>
    </message>
    <message>
        <source>%1, corrects %2</source>
        <translation>%1, berichtigt %2</translation>
    </message>
    <message>
        <source>No.</source>
        <translation>Nr.</translation>
    </message>
    <message>
        <source>Performed</source>
        <translation>Durchgeführt</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>As found</source>
        <translation>Vorgefunden</translation>
    </message>
    <message>
        <source>As left</source>
        <translation>Hinterlassen</translation>
    </message>
    <message>
        <source>Done</source>
        <translation>Maßnahme</translation>
    </message>
    <message>
        <source>repaired</source>
        <translation>repariert</translation>
    </message>
    <message>
        <source>adjusted</source>
        <translation>justiert</translation>
    </message>
    <message>
        <source>unchanged</source>
        <translation>unverändert</translation>
    </message>
    <message>
        <source>Setup</source>
        <translation>Param.</translation>
    </message>
    <message>
        <source>Person</source>
        <translation>Person</translation>
    </message>
    <message>
        <source>Sensor</source>
        <translation>Sensor</translation>
    </message>
</context>
<context>
    <name>spanwright::CertificateScreen</name>
    <message>
        <source>Page before</source>
        <translation>Vorige Seite</translation>
    </message>
    <message>
        <source>Next page</source>
        <translation>Nächste Seite</translation>
    </message>
    <message>
        <source>A4</source>
        <translation>A4</translation>
    </message>
    <message>
        <source>Letter</source>
        <translation>Letter</translation>
    </message>
    <message>
        <source>Paper</source>
        <translation>Papier</translation>
    </message>
    <message>
        <source>As wide as the window</source>
        <translation>Fensterbreite</translation>
    </message>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>Size of the preview</source>
        <translation>Größe der Vorschau</translation>
    </message>
    <message>
        <source>Preview of the certificate</source>
        <translation>Vorschau des Kalibrierscheins</translation>
    </message>
    <message>
        <source>Preview</source>
        <translation>Vorschau</translation>
    </message>
    <message>
        <source>Certificate for %1, %2 of %3</source>
        <translation>Kalibrierschein für %1, %2, vom %3</translation>
    </message>
    <message>
        <source>Not issued yet. Issuing allots a number that stays with this calibration.</source>
        <translation>Noch nicht ausgestellt. Beim Ausstellen wird eine Nummer vergeben, die bei dieser Kalibrierung bleibt.</translation>
    </message>
    <message>
        <source>Issued as %1, revision %2. Signatures have changed since; issuing makes revision %3 of the same number.</source>
        <translation>Ausgestellt als %1, Revision %2. Seither haben sich Unterschriften geändert; Ausstellen ergibt Revision %3 derselben Nummer.</translation>
    </message>
    <message>
        <source>Issued as %1, revision %2; issuing again writes the same.</source>
        <translation>Ausgestellt als %1, Revision %2; erneutes Ausstellen schreibt dasselbe.</translation>
    </message>
    <message>
        <source>%1 The calibration is %2, not approved, and the certificate is marked so.</source>
        <translation>%1 Die Kalibrierung ist %2, nicht freigegeben, und der Kalibrierschein trägt diesen Vermerk.</translation>
    </message>
    <message>
        <source>Page %1 of %2</source>
        <translation>Seite %1 von %2</translation>
    </message>
    <message>
        <source>Certificate %1 is written to %2.</source>
        <translation>Kalibrierschein %1 ist nach %2 geschrieben.</translation>
    </message>
    <message>
        <source>Write the certificate</source>
        <translation>Kalibrierschein schreiben</translation>
    </message>
    <message>
        <source>PDF files (*.pdf)</source>
        <translation>PDF-Dateien (*.pdf)</translation>
    </message>
    <message>
        <source>&amp;Issue as PDF…</source>
        <translation>Als &amp;PDF ausstellen…</translation>
    </message>
    <message>
        <source>It cannot be issued yet: %1. What belongs to the site stands under Manage, The site…; a plan&apos;s procedure in the lists of the register.</source>
        <translation>Er kann noch nicht ausgestellt werden: %1. Was zum Standort gehört, steht unter Bearbeiten, Der Standort…; die Arbeitsanweisung eines Plans in den Listen des Registers.</translation>
    </message>
</context>
<context>
    <name>spanwright::CertificatesDialog</name>
    <message>
        <source>Certificates of the round</source>
        <translation>Kalibrierscheine des Rundgangs</translation>
    </message>
    <message>
        <source>&amp;Choose…</source>
        <translation>Aus&amp;wählen…</translation>
    </message>
    <message>
        <source>&amp;Issue</source>
        <translation>Auss&amp;tellen</translation>
    </message>
    <message>
        <source>Certificates of the round &quot;%1&quot;</source>
        <translation>Kalibrierscheine des Rundgangs „%1“</translation>
    </message>
    <message>
        <source>What will be issued</source>
        <translation>Was ausgestellt wird</translation>
    </message>
    <message>
        <source>Folder</source>
        <translation>Ordner</translation>
    </message>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
    <message>
        <source>%1 will be issued, all of them or none; %2.</source>
        <translation>%1 auszustellen, alle oder keiner; %2.</translation>
    </message>
    <message>
        <source>1 certificate</source>
        <translation>1 Kalibrierschein</translation>
    </message>
    <message>
        <source>%1 certificates</source>
        <translation>%1 Kalibrierscheine</translation>
    </message>
    <message>
        <source>no stop is left out</source>
        <translation>kein Halt bleibt aus</translation>
    </message>
    <message>
        <source>1 stop is left out</source>
        <translation>1 Halt bleibt aus</translation>
    </message>
    <message>
        <source>%1 stops are left out</source>
        <translation>%1 Halte bleiben aus</translation>
    </message>
    <message>
        <source>&amp;Folder</source>
        <translation>&amp;Ordner</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source>Folder for the certificates</source>
        <translation>Ordner für die Kalibrierscheine</translation>
    </message>
    <message>
        <source>Say into which folder the certificates go.</source>
        <translation>Angeben, in welchen Ordner die Kalibrierscheine gehören.</translation>
    </message>
    <message>
        <source>It was stopped: nothing is issued, and nothing was written.</source>
        <translation>Es wurde angehalten: nichts ist ausgestellt, und nichts wurde geschrieben.</translation>
    </message>
    <message>
        <source>%1 in %2.</source>
        <translation>%1 in %2.</translation>
    </message>
    <message>
        <source>1 certificate is issued</source>
        <translation>1 Kalibrierschein ist ausgestellt</translation>
    </message>
    <message>
        <source>%1 certificates are issued</source>
        <translation>%1 Kalibrierscheine sind ausgestellt</translation>
    </message>
</context>
<context>
    <name>spanwright::CertificatesModel</name>
    <message>
        <source>new number</source>
        <translation>neue Nummer</translation>
    </message>
    <message>
        <source>%1, revision %2</source>
        <translation>%1, Revision %2</translation>
    </message>
    <message>
        <source>%1 again</source>
        <translation>%1 nochmals</translation>
    </message>
    <message>
        <source>not issued</source>
        <translation>nicht ausgestellt</translation>
    </message>
    <message>
        <source>It is not calibrated yet.</source>
        <translation>Er ist noch nicht kalibriert.</translation>
    </message>
    <message>
        <source>It is %1, not approved, and will be marked so.</source>
        <translation>Die Kalibrierung ist %1, nicht freigegeben, und der Schein wird so gekennzeichnet.</translation>
    </message>
    <message>
        <source>Certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Calibration</source>
        <translation>Kalibrierung</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
</context>
<context>
    <name>spanwright::ChannelScreen</name>
    <message>
        <source>Enter a visit</source>
        <translation>Einsatz erfassen</translation>
    </message>
    <message>
        <source>Sign…</source>
        <translation>Unterschreiben…</translation>
    </message>
    <message>
        <source>Certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>Test point</source>
        <translation>Messpunkt</translation>
    </message>
    <message>
        <source>Test &amp;point</source>
        <translation>&amp;Messpunkt</translation>
    </message>
    <message>
        <source>Error over &amp;time</source>
        <translation>Abweichung über der &amp;Zeit</translation>
    </message>
    <message>
        <source>Error over &amp;input</source>
        <translation>Abweichung über dem E&amp;ingang</translation>
    </message>
    <message>
        <source>Routines</source>
        <translation>Routinen</translation>
    </message>
    <message>
        <source>Setups</source>
        <translation>Parametrierungen</translation>
    </message>
    <message>
        <source>Fittings</source>
        <translation>Einbauten</translation>
    </message>
    <message>
        <source>&amp;Setups</source>
        <translation>&amp;Parametrierungen</translation>
    </message>
    <message>
        <source>&amp;Fittings</source>
        <translation>&amp;Einbauten</translation>
    </message>
    <message>
        <source>%1, terminal %2</source>
        <translation>%1, Klemme %2</translation>
    </message>
    <message>
        <source>%1 rev %2</source>
        <translation>%1 Rev. %2</translation>
    </message>
    <message>
        <source>Retired</source>
        <translation>Stillgelegt</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>Reading the history …</source>
        <translation>Historie wird gelesen …</translation>
    </message>
    <message>
        <source>There are no calibrations yet, so nothing can be drawn over time.</source>
        <translation>Es gibt noch keine Kalibrierungen, also lässt sich nichts über der Zeit zeichnen.</translation>
    </message>
    <message>
        <source>&amp;Calibrations, latest first</source>
        <translation>&amp;Kalibrierungen, die neueste zuerst</translation>
    </message>
    <message>
        <source>Calibrations</source>
        <translation>Kalibrierungen</translation>
    </message>
    <message>
        <source>Signatures of the chosen calibration</source>
        <translation>Unterschriften der gewählten Kalibrierung</translation>
    </message>
    <message>
        <source>Figures of the chosen calibration</source>
        <translation>Kennwerte der gewählten Kalibrierung</translation>
    </message>
    <message>
        <source>The chosen calibration has no run figures.</source>
        <translation>Die gewählte Kalibrierung hat keine Kennwerte.</translation>
    </message>
    <message>
        <source>There are no calibrations yet, so nothing can be drawn over the input.</source>
        <translation>Es gibt noch keine Kalibrierungen, also lässt sich nichts über dem Eingang zeichnen.</translation>
    </message>
    <message>
        <source>%1, %2: error over input, %3</source>
        <translation>%1, %2: Messabweichung über dem Eingang, %3</translation>
    </message>
    <message>
        <source>R&amp;outines</source>
        <translation>R&amp;outinen</translation>
    </message>
</context>
<context>
    <name>spanwright::CheckDialog</name>
    <message>
        <source>Checking the record</source>
        <translation>Akte wird geprüft</translation>
    </message>
    <message>
        <source>C&amp;hoose…</source>
        <translation>A&amp;uswählen…</translation>
    </message>
    <message>
        <source>&amp;Check</source>
        <translation>&amp;Prüfen</translation>
    </message>
    <message>
        <source>Co&amp;py</source>
        <translation>&amp;Kopieren</translation>
    </message>
    <message>
        <source>Check the record</source>
        <translation>Akte prüfen</translation>
    </message>
    <message>
        <source>Recomputes the journal from every row, and checks every signature. A certificate that was handed out, PDF or data, also shows whether the journal was cut off or rewritten.</source>
        <translation>Rechnet das Journal aus jeder Zeile nach und prüft jede Unterschrift. Ein ausgehändigter Kalibrierschein, PDF oder Daten, zeigt auch, ob das Journal gekürzt oder neu geschrieben wurde.</translation>
    </message>
    <message>
        <source>May stay empty</source>
        <translation>Darf leer bleiben</translation>
    </message>
    <message>
        <source>Certificate file</source>
        <translation>Kalibrierschein-Datei</translation>
    </message>
    <message>
        <source>Certificate &amp;file</source>
        <translation>Kalibrierschein-&amp;Datei</translation>
    </message>
    <message>
        <source>How far the check is</source>
        <translation>Wie weit die Prüfung ist</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Ergebnis</translation>
    </message>
    <message>
        <source>Figures</source>
        <translation>Zahlen</translation>
    </message>
    <message>
        <source>What was found</source>
        <translation>Was gefunden wurde</translation>
    </message>
    <message>
        <source>The check was stopped; it says nothing.</source>
        <translation>Die Prüfung wurde abgebrochen; sie sagt nichts aus.</translation>
    </message>
    <message>
        <source>A certificate that was handed out</source>
        <translation>Ein ausgehändigter Kalibrierschein</translation>
    </message>
    <message>
        <source>Certificates (*.pdf *.json);;All files (*)</source>
        <translation>Kalibrierscheine (*.pdf *.json);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Checking …</source>
        <translation>Wird geprüft …</translation>
    </message>
    <message>
        <source>Found: %1</source>
        <translation>Gefunden: %1</translation>
    </message>
    <message>
        <source>Found, entry %1 of the journal: %2</source>
        <translation>Gefunden, Eintrag %1 des Journals: %2</translation>
    </message>
    <message>
        <source>Note: %1</source>
        <translation>Hinweis: %1</translation>
    </message>
    <message>
        <source>%1 entries of the journal, %2 things with %3 rows and %4 signatures checked. The journal ends at
%5</source>
        <translation>%1 Einträge des Journals, %2 Dinge mit %3 Zeilen und %4 Unterschriften geprüft. Das Journal endet bei
%5</translation>
    </message>
    <message>
        <source>Nothing was changed behind the journal&apos;s back.</source>
        <translation>Am Journal vorbei wurde nichts geändert.</translation>
    </message>
    <message>
        <source>1 thing is not as the journal says; do not rely on this record before a reviewer has looked at it.</source>
        <translation>1 Ding ist nicht so, wie das Journal sagt; sich auf diese Akte nicht verlassen, bevor ein Prüfer sie angesehen hat.</translation>
    </message>
    <message>
        <source>%1 things are not as the journal says; do not rely on this record before a reviewer has looked at them.</source>
        <translation>%1 Dinge sind nicht so, wie das Journal sagt; sich auf diese Akte nicht verlassen, bevor ein Prüfer sie angesehen hat.</translation>
    </message>
    <message>
        <source>the print was not compared: %1</source>
        <translation>der Ausdruck wurde nicht verglichen: %1</translation>
    </message>
</context>
<context>
    <name>spanwright::DecideDialog</name>
    <message>
        <source>Take out of service</source>
        <translation>Außer Betrieb nehmen</translation>
    </message>
    <message>
        <source>Back in service</source>
        <translation>Wieder in Betrieb nehmen</translation>
    </message>
    <message>
        <source>Allow its use</source>
        <translation>Verwendung erlauben</translation>
    </message>
    <message>
        <source>No visit takes it from that day on, whatever its certificates say.</source>
        <translation>Von diesem Tag an nimmt es kein Einsatz, was auch immer seine Kalibrierscheine sagen.</translation>
    </message>
    <message>
        <source>Its certificates count again from that day on.</source>
        <translation>Von diesem Tag an gelten seine Kalibrierscheine wieder.</translation>
    </message>
    <message>
        <source>Used on these days without a valid certificate; every certificate issued for such a visit says so.</source>
        <translation>An diesen Tagen ohne gültigen Kalibrierschein verwendet; jeder für einen solchen Einsatz ausgestellte Kalibrierschein sagt es.</translation>
    </message>
    <message>
        <source>Decide about standard %1</source>
        <translation>Über Normal %1 entscheiden</translation>
    </message>
    <message>
        <source>Standard</source>
        <translation>Normal</translation>
    </message>
    <message>
        <source>State today</source>
        <translation>Status heute</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>First day</source>
        <translation>Erster Tag</translation>
    </message>
    <message>
        <source>Last day</source>
        <translation>Letzter Tag</translation>
    </message>
    <message>
        <source>Reason, needed</source>
        <translation>Grund, nötig</translation>
    </message>
    <message>
        <source>Why; it is signed with it</source>
        <translation>Warum; es wird mit unterschrieben</translation>
    </message>
    <message>
        <source>&amp;From</source>
        <translation>&amp;Von</translation>
    </message>
    <message>
        <source>&amp;To</source>
        <translation>&amp;Bis</translation>
    </message>
    <message>
        <source>&amp;Reason</source>
        <translation>&amp;Grund</translation>
    </message>
    <message>
        <source>Decide</source>
        <translation>Entscheiden</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source>Choose what is decided.</source>
        <translation>Wählen, was entschieden wird.</translation>
    </message>
    <message>
        <source>Standard %1 is %2 from %3: signed by %4.</source>
        <translation>Normal %1 ist ab %3 %2: unterschrieben von %4.</translation>
    </message>
</context>
<context>
    <name>spanwright::Drawing</name>
    <message>
        <source>%1, %2: error at %3</source>
        <translation>%1, %2: Messabweichung bei %3</translation>
    </message>
    <message>
        <source>95 % band</source>
        <translation>95-%-Band</translation>
    </message>
    <message>
        <source>Fit</source>
        <translation>Gerade</translation>
    </message>
    <message>
        <source>Tolerance</source>
        <translation>Toleranz</translation>
    </message>
    <message>
        <source>Break</source>
        <translation>Unterbrechung</translation>
    </message>
    <message>
        <source>Forecast</source>
        <translation>Vorhersage</translation>
    </message>
    <message>
        <source>band outside tolerance today</source>
        <translation>Band heute außerhalb der Toleranz</translation>
    </message>
    <message>
        <source>band leaves tolerance %1</source>
        <translation>Band verlässt Toleranz %1</translation>
    </message>
    <message>
        <source>As found</source>
        <translation>Vorgefunden</translation>
    </message>
    <message>
        <source>As left</source>
        <translation>Hinterlassen</translation>
    </message>
    <message>
        <source>One segment</source>
        <translation>Ein Abschnitt</translation>
    </message>
    <message>
        <source>Date</source>
        <translation>Datum</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Abweichung</translation>
    </message>
    <message>
        <source>%1 in %2</source>
        <translation>%1 in %2</translation>
    </message>
    <message>
        <source>1 reading</source>
        <translation>1 Ablesung</translation>
    </message>
    <message>
        <source>%1 readings</source>
        <translation>%1 Ablesungen</translation>
    </message>
    <message>
        <source>1 segment</source>
        <translation>1 Abschnitt</translation>
    </message>
    <message>
        <source>%1 segments</source>
        <translation>%1 Abschnitten</translation>
    </message>
    <message>
        <source>; none yet under the setup and sensor in force</source>
        <translation>; noch keine unter der geltenden Parametrierung und dem eingebauten Sensor</translation>
    </message>
    <message>
        <source>; too few in one segment to tell a drift</source>
        <translation>; zu wenige in einem Abschnitt für eine Drift</translation>
    </message>
    <message>
        <source>; drift %1 %2 per year</source>
        <translation>; Drift %1 %2 pro Jahr</translation>
    </message>
    <message>
        <source>; too few to tell a band</source>
        <translation>; zu wenige für ein Band</translation>
    </message>
    <message>
        <source>; the 95 % band stays inside the tolerance for ten years</source>
        <translation>; das 95-%-Band bleibt zehn Jahre innerhalb der Toleranz</translation>
    </message>
    <message>
        <source>; the 95 % band is already outside the tolerance</source>
        <translation>; das 95-%-Band ist schon außerhalb der Toleranz</translation>
    </message>
    <message>
        <source>; the 95 % band leaves the tolerance on %1</source>
        <translation>; das 95-%-Band verlässt die Toleranz am %1</translation>
    </message>
    <message>
        <source>Adjusted</source>
        <translation>Justiert</translation>
    </message>
    <message>
        <source>Step found</source>
        <translation>Sprung gefunden</translation>
    </message>
    <message>
        <source>step %1 %2</source>
        <translation>Sprung %1 %2</translation>
    </message>
    <message>
        <source>%1: error at %2 by its certificates</source>
        <translation>%1: Messabweichung bei %2 nach seinen Kalibrierscheinen</translation>
    </message>
    <message>
        <source>Mean</source>
        <translation>Mittelwert</translation>
    </message>
    <message>
        <source>Limits</source>
        <translation>Grenzen</translation>
    </message>
    <message>
        <source>Weighted average</source>
        <translation>Gew. Mittelwert</translation>
    </message>
    <message>
        <source>Beyond the limits</source>
        <translation>Außerhalb</translation>
    </message>
    <message>
        <source>error</source>
        <translation>Abweichung</translation>
    </message>
    <message>
        <source>change</source>
        <translation>Änderung</translation>
    </message>
    <message>
        <source>average</source>
        <translation>Mittelwert</translation>
    </message>
    <message>
        <source>%1 beyond</source>
        <translation>%1 außerhalb</translation>
    </message>
    <message>
        <source>Issued</source>
        <translation>Ausgestellt</translation>
    </message>
    <message>
        <source>1 certificate</source>
        <translation>1 Kalibrierschein</translation>
    </message>
    <message>
        <source>%1 certificates</source>
        <translation>%1 Kalibrierscheine</translation>
    </message>
    <message>
        <source>%1; limits need %2.</source>
        <translation>%1; Grenzen brauchen %2.</translation>
    </message>
    <message>
        <source>%1; every error is the same, so nothing tells what is usual.</source>
        <translation>%1; jede Messabweichung ist gleich, also zeigt nichts, was üblich ist.</translation>
    </message>
    <message>
        <source>%1; mean %2, limits %3 to %4 %5; %6</source>
        <translation>%1; Mittelwert %2, Grenzen %3 bis %4 %5; %6</translation>
    </message>
    <message>
        <source>nothing beyond them</source>
        <translation>nichts außerhalb</translation>
    </message>
    <message>
        <source>1 beyond</source>
        <translation>1 außerhalb</translation>
    </message>
    <message>
        <source>; provisional below %1 certificates</source>
        <translation>; vorläufig unter %1 Kalibrierscheinen</translation>
    </message>
</context>
<context>
    <name>spanwright::DueModel</name>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Due on</source>
        <translation>Fällig am</translation>
    </message>
    <message>
        <source>Proven on</source>
        <translation>Nachgewiesen am</translation>
    </message>
    <message>
        <source>Interval</source>
        <translation>Intervall</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Warum</translation>
    </message>
</context>
<context>
    <name>spanwright::DueScreen</name>
    <message>
        <source>Due list</source>
        <translation>Fälligkeiten</translation>
    </message>
    <message>
        <source>Every state</source>
        <translation>Jeder Status</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>At any time</source>
        <translation>Zu jeder Zeit</translation>
    </message>
    <message>
        <source>Due now</source>
        <translation>Jetzt fällig</translation>
    </message>
    <message>
        <source>Within %1 days</source>
        <translation>Binnen %1 Tagen</translation>
    </message>
    <message>
        <source>How soon</source>
        <translation>Wie bald</translation>
    </message>
    <message>
        <source>Narrow by channel, place or reason</source>
        <translation>Nach Kanal, Ort oder Grund einengen</translation>
    </message>
    <message>
        <source>Narrow by words</source>
        <translation>Nach Wörtern einengen</translation>
    </message>
    <message>
        <source>%1 of %2 shown</source>
        <translation>%1 von %2 gezeigt</translation>
    </message>
</context>
<context>
    <name>spanwright::EntryFieldsModel</name>
    <message>
        <source>Value</source>
        <translation>Wert</translation>
    </message>
    <message>
        <source>Before</source>
        <translation>Vorher</translation>
    </message>
    <message>
        <source>After, or as it stands</source>
        <translation>Nachher, oder wie es steht</translation>
    </message>
</context>
<context>
    <name>spanwright::ErrorBarDelegate</name>
    <message>
        <source>not judged</source>
        <translation>nicht bewertet</translation>
    </message>
</context>
<context>
    <name>spanwright::EvidenceDialog</name>
    <message>
        <source>Gathering the evidence</source>
        <translation>Nachweise werden gesammelt</translation>
    </message>
    <message>
        <source>One &amp;channel</source>
        <translation>Ein &amp;Kanal</translation>
    </message>
    <message>
        <source>&amp;All channels</source>
        <translation>&amp;Alle Kanäle</translation>
    </message>
    <message>
        <source>One &amp;round</source>
        <translation>Ein &amp;Rundgang</translation>
    </message>
    <message>
        <source>One &amp;zip file</source>
        <translation>Eine &amp;Zip-Datei</translation>
    </message>
    <message>
        <source>A f&amp;older</source>
        <translation>Ein &amp;Ordner</translation>
    </message>
    <message>
        <source>Performed &amp;from</source>
        <translation>Durchgeführt &amp;von</translation>
    </message>
    <message>
        <source>&amp;to</source>
        <translation>&amp;bis</translation>
    </message>
    <message>
        <source>&amp;Make</source>
        <translation>&amp;Erstellen</translation>
    </message>
    <message>
        <source>C&amp;hoose…</source>
        <translation>A&amp;uswählen…</translation>
    </message>
    <message>
        <source>Evidence for a reviewer</source>
        <translation>Nachweise für Prüfer</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Round</source>
        <translation>Rundgang</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>First day</source>
        <translation>Erster Tag</translation>
    </message>
    <message>
        <source>Last day</source>
        <translation>Letzter Tag</translation>
    </message>
    <message>
        <source>Where to</source>
        <translation>Wohin</translation>
    </message>
    <message>
        <source>A folder or zip that is not there yet</source>
        <translation>Ein Ordner oder Zip, den es noch nicht gibt</translation>
    </message>
    <message>
        <source>Result</source>
        <translation>Ergebnis</translation>
    </message>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
    <message>
        <source>Calibrations with everything they rest on, in files that can be checked without this program or the record; the bundle says itself how.</source>
        <translation>Kalibrierungen mit allem, worauf sie beruhen, in Dateien, die sich ohne dieses Programm und ohne die Akte prüfen lassen; das Bündel sagt selbst, wie.</translation>
    </message>
    <message>
        <source>&amp;Where to</source>
        <translation>&amp;Wohin</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Where the bundle is to be</source>
        <translation>Wo das Bündel liegen soll</translation>
    </message>
    <message>
        <source>Say where the bundle is to be: a folder or zip that is not there yet.</source>
        <translation>Angeben, wo das Bündel liegen soll: ein Ordner oder Zip, den es noch nicht gibt.</translation>
    </message>
    <message>
        <source>Type the channel&apos;s tag.</source>
        <translation>Das Kennzeichen des Kanals eingeben.</translation>
    </message>
    <message>
        <source>%1 with %2 and %3 in %4, %5 entries of the journal in full.</source>
        <translation>%1 mit %2 und %3 in %4, %5 Einträge des Journals vollständig.</translation>
    </message>
    <message>
        <source>1 calibration</source>
        <translation>1 Kalibrierung</translation>
    </message>
    <message>
        <source>%1 calibrations</source>
        <translation>%1 Kalibrierungen</translation>
    </message>
    <message>
        <source>1 certificate</source>
        <translation>1 Kalibrierschein</translation>
    </message>
    <message>
        <source>%1 certificates</source>
        <translation>%1 Kalibrierscheinen</translation>
    </message>
    <message>
        <source>1 file attached</source>
        <translation>1 Anhang</translation>
    </message>
    <message>
        <source>%1 files attached</source>
        <translation>%1 Anhängen</translation>
    </message>
    <message>
        <source>1 file</source>
        <translation>1 Datei</translation>
    </message>
    <message>
        <source>%1 files</source>
        <translation>%1 Dateien</translation>
    </message>
    <message>
        <source>1 more that it corrects or replaces.</source>
        <translation>1 weitere, die sie berichtigt oder ersetzt.</translation>
    </message>
    <message>
        <source>%1 more that they correct or replace.</source>
        <translation>%1 weitere, die sie berichtigen oder ersetzen.</translation>
    </message>
    <message>
        <source>1 has no certificate issued.</source>
        <translation>Für 1 ist kein Kalibrierschein ausgestellt.</translation>
    </message>
    <message>
        <source>%1 have no certificate issued.</source>
        <translation>Für %1 ist kein Kalibrierschein ausgestellt.</translation>
    </message>
    <message>
        <source>Traces found 1 gap; the summary names it.</source>
        <translation>Die Rückverfolgung fand 1 Lücke; die Zusammenfassung nennt sie.</translation>
    </message>
    <message>
        <source>Traces found %1 gaps; the summary names them.</source>
        <translation>Die Rückverfolgung fand %1 Lücken; die Zusammenfassung nennt sie.</translation>
    </message>
    <message>
        <source>
Tell the reviewer by another way, so that every file can be trusted:
SHA-256 of SHA256SUMS: %1
Head of the journal: %2</source>
        <translation>
Dem Prüfer auf anderem Weg mitteilen, damit jeder Datei zu trauen ist:
SHA-256 von SHA256SUMS: %1
Kopf des Journals: %2</translation>
    </message>
</context>
<context>
    <name>spanwright::FilesDialog</name>
    <message>
        <source>standard %1, certificate %2</source>
        <translation>Normal %1, Kalibrierschein %2</translation>
    </message>
    <message>
        <source>calibration %1</source>
        <translation>Kalibrierung %1</translation>
    </message>
    <message>
        <source>channel %1</source>
        <translation>Kanal %1</translation>
    </message>
    <message>
        <source>Added by</source>
        <translation>Hinzugefügt von</translation>
    </message>
    <message>
        <source>Files</source>
        <translation>Dateien</translation>
    </message>
    <message>
        <source>&amp;Save as…</source>
        <translation>&amp;Speichern unter…</translation>
    </message>
    <message>
        <source>Files in the record</source>
        <translation>Dateien in der Akte</translation>
    </message>
    <message>
        <source>About what</source>
        <translation>Wozu</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
    <message>
        <source>What the next file is; may stay empty</source>
        <translation>Was die nächste Datei ist; darf leer bleiben</translation>
    </message>
    <message>
        <source>&amp;Add file…</source>
        <translation>Datei &amp;hinzufügen…</translation>
    </message>
    <message>
        <source>A&amp;bout</source>
        <translation>&amp;Betrifft</translation>
    </message>
    <message>
        <source>&amp;Note</source>
        <translation>&amp;Notiz</translation>
    </message>
    <message>
        <source>A file can be dropped here as well. It is copied into the record, and stays there as it is.</source>
        <translation>Eine Datei kann auch hierher gezogen werden. Sie wird in die Akte kopiert und bleibt dort, wie sie ist.</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Files to keep in the record</source>
        <translation>Dateien für die Akte</translation>
    </message>
    <message>
        <source>Save as</source>
        <translation>Speichern unter</translation>
    </message>
    <message>
        <source>Choose a file in the list first.</source>
        <translation>Erst eine Datei in der Liste wählen.</translation>
    </message>
    <message>
        <source>Only files of this machine can be kept; save what was dropped first.</source>
        <translation>Nur Dateien dieses Rechners lassen sich aufnehmen; das Hergezogene erst speichern.</translation>
    </message>
</context>
<context>
    <name>spanwright::FilesModel</name>
    <message>
        <source>File</source>
        <translation>Datei</translation>
    </message>
    <message>
        <source>Size</source>
        <translation>Größe</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
    <message>
        <source>By</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>Added (UTC)</source>
        <translation>Hinzugefügt (UTC)</translation>
    </message>
    <message>
        <source>SHA-256</source>
        <translation>SHA-256</translation>
    </message>
</context>
<context>
    <name>spanwright::FittingForm</name>
    <message>
        <source>Fit a sensor to %1</source>
        <translation>Sensor an %1 einbauen</translation>
    </message>
    <message>
        <source>Fit</source>
        <translation>Einbauen</translation>
    </message>
    <message>
        <source>&amp;Sensor</source>
        <translation>&amp;Sensor</translation>
    </message>
    <message>
        <source>Fitted &amp;from</source>
        <translation>Eingebaut &amp;ab</translation>
    </message>
    <message>
        <source>Entered &amp;by</source>
        <translation>Eingetragen &amp;von</translation>
    </message>
    <message>
        <source>Entered by</source>
        <translation>Eingetragen von</translation>
    </message>
    <message>
        <source>No sensor is fitted now.</source>
        <translation>Zurzeit ist kein Sensor eingebaut.</translation>
    </message>
    <message>
        <source>Sensor %1 is fitted since %2; it comes off at that moment.</source>
        <translation>Sensor %1 ist seit %2 eingebaut; er wird zu diesem Zeitpunkt ausgebaut.</translation>
    </message>
    <message>
        <source>Sensor %1 is fitted to %2.</source>
        <translation>Sensor %1 ist an %2 eingebaut.</translation>
    </message>
</context>
<context>
    <name>spanwright::FittingsModel</name>
    <message>
        <source>Sensor</source>
        <translation>Sensor</translation>
    </message>
    <message>
        <source>What it is</source>
        <translation>Was es ist</translation>
    </message>
    <message>
        <source>Range</source>
        <translation>Bereich</translation>
    </message>
    <message>
        <source>From</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>Until</source>
        <translation>Bis</translation>
    </message>
    <message>
        <source>now</source>
        <translation>jetzt</translation>
    </message>
</context>
<context>
    <name>spanwright::FleetModel</name>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>%1 (and %2 more)</source>
        <translation>%1 (und %2 weitere)</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Worst point</source>
        <translation>Ungünstigster Punkt</translation>
    </message>
    <message>
        <source>Tolerance used</source>
        <translation>Toleranz genutzt</translation>
    </message>
    <message>
        <source>by the band</source>
        <translation>vom Band</translation>
    </message>
    <message>
        <source>In tolerance</source>
        <translation>In Toleranz</translation>
    </message>
    <message>
        <source>Band leaves on</source>
        <translation>Band tritt aus am</translation>
    </message>
    <message>
        <source>Days</source>
        <translation>Tage</translation>
    </message>
    <message>
        <source>Drift per year</source>
        <translation>Drift pro Jahr</translation>
    </message>
    <message>
        <source>Found</source>
        <translation>Befund</translation>
    </message>
    <message>
        <source>Told from</source>
        <translation>Ermittelt aus</translation>
    </message>
    <message>
        <source>Line leaves on</source>
        <translation>Gerade tritt aus am</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
</context>
<context>
    <name>spanwright::FleetScreen</name>
    <message>
        <source>Drift of all channels</source>
        <translation>Drift aller Kanäle</translation>
    </message>
    <message>
        <source>Soonest out of tolerance first</source>
        <translation>Zuerst, was bald aus der Toleranz tritt</translation>
    </message>
    <message>
        <source>Most of the tolerance used first</source>
        <translation>Zuerst, was die Toleranz am meisten nutzt</translation>
    </message>
    <message>
        <source>What was found first</source>
        <translation>Zuerst, wo etwas gefunden wurde</translation>
    </message>
    <message>
        <source>Order</source>
        <translation>Reihenfolge</translation>
    </message>
    <message>
        <source>Narrow by channel, place or finding</source>
        <translation>Nach Kanal, Ort oder Befund einengen</translation>
    </message>
    <message>
        <source>Narrow by words</source>
        <translation>Nach Wörtern einengen</translation>
    </message>
    <message>
        <source>What was found at the chosen channel</source>
        <translation>Was am gewählten Kanal gefunden wurde</translation>
    </message>
    <message>
        <source>%1 of %2 shown</source>
        <translation>%1 von %2 gezeigt</translation>
    </message>
    <message>
        <source>Reading the histories …</source>
        <translation>Historien werden gelesen …</translation>
    </message>
    <message>
        <source>%1: nothing was found beyond ordinary drift at %2.</source>
        <translation>%1: über gewöhnliche Drift hinaus wurde an %2 nichts gefunden.</translation>
    </message>
    <message>
        <source>its 1 point</source>
        <translation>seinem 1 Messpunkt</translation>
    </message>
    <message>
        <source>any of its %1 points</source>
        <translation>seinen %1 Messpunkten</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
</context>
<context>
    <name>spanwright::ForecastModel</name>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Point</source>
        <translation>Messpunkt</translation>
    </message>
    <message>
        <source>Drift per year</source>
        <translation>Drift pro Jahr</translation>
    </message>
    <message>
        <source>95 % band leaves</source>
        <translation>95-%-Band tritt aus</translation>
    </message>
    <message>
        <source>already outside</source>
        <translation>schon außerhalb</translation>
    </message>
    <message>
        <source>Fitted line</source>
        <translation>Gerade</translation>
    </message>
    <message>
        <source>stays inside</source>
        <translation>bleibt innerhalb</translation>
    </message>
</context>
<context>
    <name>spanwright::FormDialog</name>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source>%1, low end</source>
        <translation>%1, unteres Ende</translation>
    </message>
    <message>
        <source>to</source>
        <comment>between the ends of a range</comment>
        <translation>bis</translation>
    </message>
    <message>
        <source>%1, high end</source>
        <translation>%1, oberes Ende</translation>
    </message>
    <message>
        <source>%1, unit</source>
        <translation>%1, Einheit</translation>
    </message>
    <message>
        <source>What tells it from others stays: signatures and certificates name it.</source>
        <translation>Was es von anderen unterscheidet, bleibt: Unterschriften und Kalibrierscheine nennen es.</translation>
    </message>
</context>
<context>
    <name>spanwright::FoundForm</name>
    <message>
        <source>&amp;Certificate that reports it</source>
        <translation>Ber&amp;ichtender Kalibrierschein</translation>
    </message>
    <message>
        <source>&amp;Day it was found</source>
        <translation>&amp;Tag des Befunds</translation>
    </message>
    <message>
        <source>Coverage &amp;factor k</source>
        <translation>Erweiterungsfaktor &amp;k</translation>
    </message>
    <message>
        <source>R&amp;emark</source>
        <translation>Be&amp;merkung</translation>
    </message>
    <message>
        <source>&amp;Last good certificate</source>
        <translation>&amp;Letzter guter Kalibrierschein</translation>
    </message>
    <message>
        <source>Choose one of its certificates and its values are taken over, or type number and values of one that is not in the register. The values are those from before it was adjusted.

Without a choice the last good certificate is the newest that does not show yet what was found.</source>
        <translation>Einen seiner Kalibrierscheine wählen, dann werden dessen Werte übernommen, oder Nummer und Werte eines anderen eingeben. Es sind die Werte vor dem Justieren.

Ohne Wahl ist der letzte gute Kalibrierschein der neueste, der noch nicht zeigt, was gefunden wurde.</translation>
    </message>
    <message>
        <source>&amp;Open file…</source>
        <translation>Datei ö&amp;ffnen…</translation>
    </message>
    <message>
        <source>A finding in TOML, as the command &quot;reach&quot; reads it</source>
        <translation>Ein Befund in TOML, wie ihn der Befehl &quot;reach&quot; liest</translation>
    </message>
    <message>
        <source>&amp;Show what it reached</source>
        <translation>&amp;Zeigen, was betroffen ist</translation>
    </message>
    <message>
        <source>Values found</source>
        <translation>Gefundene Werte</translation>
    </message>
    <message>
        <source>Val&amp;ues found: type them, or copy a table and press Ctrl+V</source>
        <translation>Gefundene &amp;Werte: eingeben, oder eine Tabelle kopieren und Strg+V drücken</translation>
    </message>
    <message>
        <source>An empty unit or resolution is that of the line above. Errors are indication minus true value; an uncertainty may be left out.</source>
        <translation>Eine leere Einheit oder Auflösung ist die der Zeile darüber. Messabweichung ist Anzeige minus wahrer Wert; eine Messunsicherheit darf fehlen.</translation>
    </message>
    <message>
        <source>issued %1</source>
        <translation>ausgestellt am %1</translation>
    </message>
    <message>
        <source>as the program decides</source>
        <translation>wie das Programm entscheidet</translation>
    </message>
    <message>
        <source>%1, issued %2</source>
        <translation>%1, ausgestellt am %2</translation>
    </message>
    <message>
        <source>Take the certificate&apos;s values</source>
        <translation>Werte des Kalibrierscheins übernehmen</translation>
    </message>
    <message>
        <source>The values typed in the table are replaced by those of certificate %1.</source>
        <translation>Die eingegebenen Werte der Tabelle werden durch die des Kalibrierscheins %1 ersetzt.</translation>
    </message>
    <message>
        <source>Replace them</source>
        <translation>Ersetzen</translation>
    </message>
    <message>
        <source>Keep what is typed</source>
        <translation>Eingegebenes behalten</translation>
    </message>
    <message>
        <source>Line %1: %2</source>
        <translation>Zeile %1: %2</translation>
    </message>
    <message>
        <source>What was found</source>
        <translation>Was gefunden wurde</translation>
    </message>
    <message>
        <source>Findings (*.toml);;All files (*)</source>
        <translation>Befunde (*.toml);;Alle Dateien (*)</translation>
    </message>
</context>
<context>
    <name>spanwright::FoundModel</name>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>What it measures</source>
        <translation>Was er misst</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>retired</source>
        <translation>stillgelegt</translation>
    </message>
    <message>
        <source>no routine</source>
        <translation>keine Routine</translation>
    </message>
    <message>
        <source>Sensor</source>
        <translation>Sensor</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Due on</source>
        <translation>Fällig am</translation>
    </message>
</context>
<context>
    <name>spanwright::ImportDialog</name>
    <message>
        <source>Keep the good visits when some are refused</source>
        <translation>Die guten Einsätze behalten, wenn andere abgewiesen werden</translation>
    </message>
    <message>
        <source>Look first</source>
        <translation>Erst ansehen</translation>
    </message>
    <message>
        <source>Import</source>
        <translation>Importieren</translation>
    </message>
    <message>
        <source>Import histories</source>
        <translation>Historien importieren</translation>
    </message>
    <message>
        <source>Mapping file</source>
        <translation>Zuordnungsdatei</translation>
    </message>
    <message>
        <source>History files</source>
        <translation>Historiendateien</translation>
    </message>
    <message>
        <source>Refused</source>
        <translation>Abgewiesen</translation>
    </message>
    <message>
        <source>Choose mapping…</source>
        <translation>Zuordnung wählen…</translation>
    </message>
    <message>
        <source>Choose files…</source>
        <translation>Dateien wählen…</translation>
    </message>
    <message>
        <source>A mapping says how the columns of a file are to be read.</source>
        <translation>Eine Zuordnung sagt, wie die Spalten einer Datei zu lesen sind.</translation>
    </message>
    <message>
        <source>Mapping</source>
        <translation>Zuordnung</translation>
    </message>
    <message>
        <source>Mappings (*.toml)</source>
        <translation>Zuordnungen (*.toml)</translation>
    </message>
    <message>
        <source>Histories</source>
        <translation>Historien</translation>
    </message>
    <message>
        <source>Tables (*.csv *.txt);;All files (*)</source>
        <translation>Tabellen (*.csv *.txt);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Reading …</source>
        <translation>Wird gelesen …</translation>
    </message>
    <message>
        <source>Importing …</source>
        <translation>Wird importiert …</translation>
    </message>
    <message>
        <source>Would add %1 calibrations with %2 readings; %3 are already known; %4 refused.</source>
        <translation>Käme hinzu: %1 Kalibrierungen mit %2 Ablesungen; %3 sind schon bekannt; %4 abgewiesen.</translation>
    </message>
    <message>
        <source>Nothing was added, because %4 were refused (%1 calibrations with %2 readings were good, %3 are already known).</source>
        <translation>Nichts kam hinzu, weil %4 abgewiesen wurden (%1 Kalibrierungen mit %2 Ablesungen waren gut, %3 sind schon bekannt).</translation>
    </message>
    <message>
        <source>Added %1 calibrations with %2 readings; %3 were already known; %4 refused.</source>
        <translation>Hinzugekommen: %1 Kalibrierungen mit %2 Ablesungen; %3 waren schon bekannt; %4 abgewiesen.</translation>
    </message>
    <message>
        <source>and %1 more</source>
        <translation>und %1 weitere</translation>
    </message>
</context>
<context>
    <name>spanwright::IntervalsModel</name>
    <message>
        <source>as it is</source>
        <translation>unverändert</translation>
    </message>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Policy</source>
        <translation>Verfahren</translation>
    </message>
    <message>
        <source>In force</source>
        <translation>In Kraft</translation>
    </message>
    <message>
        <source>Proposed</source>
        <translation>Vorgeschlagen</translation>
    </message>
    <message>
        <source>Change</source>
        <translation>Änderung</translation>
    </message>
    <message>
        <source>Visits</source>
        <translation>Einsätze</translation>
    </message>
    <message>
        <source>Out of tolerance</source>
        <translation>Außer Toleranz</translation>
    </message>
    <message>
        <source>Evidence</source>
        <translation>Belege</translation>
    </message>
</context>
<context>
    <name>spanwright::IntervalsScreen</name>
    <message>
        <source>Proposed intervals</source>
        <translation>Vorgeschlagene Intervalle</translation>
    </message>
    <message>
        <source>Only where a &amp;change is proposed</source>
        <translation>Nur wo eine Änderung &amp;vorgeschlagen ist</translation>
    </message>
    <message>
        <source>Evidence for the chosen routine</source>
        <translation>Belege zur gewählten Routine</translation>
    </message>
    <message>
        <source>Put an interval in force</source>
        <translation>Intervall in Kraft setzen</translation>
    </message>
    <message>
        <source> days</source>
        <translation> Tage</translation>
    </message>
    <message>
        <source>Length in days</source>
        <translation>Länge in Tagen</translation>
    </message>
    <message>
        <source>Who accepts</source>
        <translation>Wer annimmt</translation>
    </message>
    <message>
        <source>why; needed when it is not the proposed length</source>
        <translation>warum; nötig, wenn es nicht die vorgeschlagene Länge ist</translation>
    </message>
    <message>
        <source>Reason</source>
        <translation>Grund</translation>
    </message>
    <message>
        <source>&amp;Accept</source>
        <translation>&amp;Festlegen</translation>
    </message>
    <message>
        <source>&amp;Length</source>
        <translation>&amp;Länge</translation>
    </message>
    <message>
        <source>Reading the histories …</source>
        <translation>Historien werden gelesen …</translation>
    </message>
    <message>
        <source>Looking at intervals</source>
        <translation>Intervalle werden ermittelt</translation>
    </message>
    <message>
        <source>%1 of %2 shown</source>
        <translation>%1 von %2 gezeigt</translation>
    </message>
    <message>
        <source>%1, %2: %3</source>
        <translation>%1, %2: %3</translation>
    </message>
    <message>
        <source>The interval in force was accepted and holds since %1.</source>
        <translation>Das geltende Intervall wurde angenommen und gilt seit %1.</translation>
    </message>
    <message>
        <source>%1, %2: %3 from today on.</source>
        <translation>%1, %2: %3 ab heute.</translation>
    </message>
    <message>
        <source>Wh&amp;o</source>
        <translation>&amp;Wer</translation>
    </message>
    <message>
        <source>Rea&amp;son</source>
        <translation>Gr&amp;und</translation>
    </message>
</context>
<context>
    <name>spanwright::JournalModel</name>
    <message>
        <source>the program</source>
        <translation>das Programm</translation>
    </message>
    <message>
        <source>Entry</source>
        <translation>Eintrag</translation>
    </message>
    <message>
        <source>When (UTC)</source>
        <translation>Wann (UTC)</translation>
    </message>
    <message>
        <source>Who</source>
        <translation>Wer</translation>
    </message>
    <message>
        <source>Did</source>
        <translation>Tat</translation>
    </message>
    <message>
        <source>About</source>
        <translation>Betrifft</translation>
    </message>
    <message>
        <source>Detail</source>
        <translation>Detail</translation>
    </message>
</context>
<context>
    <name>spanwright::JournalScreen</name>
    <message>
        <source>Narrow by person, act, thing, day (2026-11-25) or channel</source>
        <translation>Nach Person, Handlung, Ding, Tag (2026-11-25) oder Kanal einengen</translation>
    </message>
    <message>
        <source>Narrow the journal</source>
        <translation>Journal einengen</translation>
    </message>
    <message>
        <source>Head of the journal</source>
        <translation>Kopf des Journals</translation>
    </message>
    <message>
        <source>Cop&amp;y head</source>
        <translation>K&amp;opf kopieren</translation>
    </message>
    <message>
        <source>Keep it elsewhere: whoever has it can prove later that nothing before it was changed</source>
        <translation>Anderswo aufbewahren: wer ihn hat, kann später nachweisen, dass davor nichts geändert wurde</translation>
    </message>
    <message>
        <source>Journal</source>
        <translation>Journal</translation>
    </message>
    <message>
        <source>Copied</source>
        <translation>Kopiert</translation>
    </message>
    <message>
        <source>The entry</source>
        <translation>Der Eintrag</translation>
    </message>
    <message>
        <source>What the entry changed</source>
        <translation>Was der Eintrag änderte</translation>
    </message>
    <message>
        <source>&amp;Show calibration</source>
        <translation>&amp;Kalibrierung zeigen</translation>
    </message>
    <message>
        <source>Head: entry %1, %2…</source>
        <translation>Kopf: Eintrag %1, %2…</translation>
    </message>
    <message>
        <source>Looking through the journal</source>
        <translation>Journal wird durchgesehen</translation>
    </message>
    <message>
        <source>1 entry</source>
        <translation>1 Eintrag</translation>
    </message>
    <message>
        <source>%1 entries</source>
        <translation>%1 Einträge</translation>
    </message>
    <message>
        <source>%1 of %2</source>
        <translation>%1 von %2</translation>
    </message>
    <message>
        <source>No entry holds all these words.</source>
        <translation>Kein Eintrag enthält alle diese Wörter.</translation>
    </message>
    <message>
        <source>Entry %1: %2 %3</source>
        <translation>Eintrag %1: %2 %3</translation>
    </message>
    <message>
        <source>%1 UTC, by %2</source>
        <translation>%1 UTC, durch %2</translation>
    </message>
    <message>
        <source>the program</source>
        <translation>das Programm</translation>
    </message>
    <message>
        <source>
Detail: %1</source>
        <translation>
Einzelheit: %1</translation>
    </message>
    <message>
        <source>
Hash: %1…</source>
        <translation>
Hash: %1…</translation>
    </message>
</context>
<context>
    <name>spanwright::LabelsDialog</name>
    <message>
        <source>Labels</source>
        <translation>Etiketten</translation>
    </message>
    <message>
        <source>&amp;Write the sheet…</source>
        <translation>Bogen &amp;schreiben…</translation>
    </message>
    <message>
        <source>Labels to stick on</source>
        <translation>Etiketten zum Aufkleben</translation>
    </message>
    <message>
        <source>What is on the labels</source>
        <translation>Was auf den Etiketten steht</translation>
    </message>
    <message>
        <source>Places on a sheet</source>
        <translation>Plätze auf einem Bogen</translation>
    </message>
    <message>
        <source>%1. Each holds the tag, the day and the certificate&apos;s number, as text and as a code to be read by a phone. %2</source>
        <translation>%1. Auf jedem stehen Kennzeichen, Tag und Nummer des Kalibrierscheins, als Text und als Code, den ein Telefon liest. %2</translation>
    </message>
    <message>
        <source>1 label</source>
        <translation>1 Etikett</translation>
    </message>
    <message>
        <source>%1 labels</source>
        <translation>%1 Etiketten</translation>
    </message>
    <message>
        <source>The due date is on it, as agreed.</source>
        <translation>Der Fälligkeitstag steht darauf, wie vereinbart.</translation>
    </message>
    <message>
        <source>The due date is left out: the site has not agreed to its being printed.</source>
        <translation>Der Fälligkeitstag bleibt weg: der Standort hat seinem Druck nicht zugestimmt.</translation>
    </message>
    <message>
        <source>Width</source>
        <translation>Breite</translation>
    </message>
    <message>
        <source>Height</source>
        <translation>Höhe</translation>
    </message>
    <message>
        <source>From the left edge</source>
        <translation>Vom linken Rand</translation>
    </message>
    <message>
        <source>From the top edge</source>
        <translation>Vom oberen Rand</translation>
    </message>
    <message>
        <source>Gap across</source>
        <translation>Abstand quer</translation>
    </message>
    <message>
        <source>Gap down</source>
        <translation>Abstand längs</translation>
    </message>
    <message>
        <source>First free label</source>
        <translation>Erstes freies Etikett</translation>
    </message>
    <message>
        <source>Counted along the rows; 1 on a sheet that is whole</source>
        <translation>Die Zeilen entlang gezählt; 1 auf einem ganzen Bogen</translation>
    </message>
    <message>
        <source>&amp;First free label</source>
        <translation>&amp;Erstes freies Etikett</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source> mm</source>
        <translation> mm</translation>
    </message>
    <message>
        <source>%1 on a sheet of %2</source>
        <translation>%1 auf einem Bogen %2</translation>
    </message>
    <message>
        <source>Letter</source>
        <translation>Letter</translation>
    </message>
    <message>
        <source>A4</source>
        <translation>A4</translation>
    </message>
    <message>
        <source>Write the sheet of labels</source>
        <translation>Etikettenbogen schreiben</translation>
    </message>
    <message>
        <source>PDF files (*.pdf)</source>
        <translation>PDF-Dateien (*.pdf)</translation>
    </message>
    <message>
        <source>%1 written to %2; print it at its true size.</source>
        <translation>%1 nach %2 geschrieben; in wahrer Größe drucken.</translation>
    </message>
</context>
<context>
    <name>spanwright::LabelsModel</name>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Calibrated</source>
        <translation>Kalibriert</translation>
    </message>
    <message>
        <source>Due</source>
        <translation>Fällig</translation>
    </message>
    <message>
        <source>Certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>No label because</source>
        <translation>Kein Etikett, denn</translation>
    </message>
</context>
<context>
    <name>spanwright::LeavingDialog</name>
    <message>
        <source>%1 has left</source>
        <translation>%1 ist ausgeschieden</translation>
    </message>
    <message>
        <source>What %1 signed stays valid; from the day on %1 signs nothing more. An administrator signs this.</source>
        <translation>Was %1 unterschrieben hat, bleibt gültig; ab dem Tag unterschreibt %1 nichts mehr. Ein Verwalter unterschreibt dies.</translation>
    </message>
    <message>
        <source>From the &amp;day</source>
        <translation>Ab dem &amp;Tag</translation>
    </message>
    <message>
        <source>From the day</source>
        <translation>Ab dem Tag</translation>
    </message>
    <message>
        <source>Sign</source>
        <translation>Unterschreiben</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source>%1 is entered as having left.</source>
        <translation>%1 ist als ausgeschieden eingetragen.</translation>
    </message>
</context>
<context>
    <name>spanwright::MainWindow</name>
    <message>
        <source>&amp;Record</source>
        <translation>&amp;Akte</translation>
    </message>
    <message>
        <source>&amp;Go</source>
        <translation>&amp;Gehe zu</translation>
    </message>
    <message>
        <source>&amp;Work</source>
        <translation>A&amp;rbeit</translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation>A&amp;nsicht</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Hilfe</translation>
    </message>
    <message>
        <source>Places to go</source>
        <translation>Seiten</translation>
    </message>
    <message>
        <source>Progress</source>
        <translation>Fortschritt</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Cancelled.</source>
        <translation>Abgebrochen.</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>About Spanwright</source>
        <translation>Über Spanwright</translation>
    </message>
    <message>
        <source>&lt;p&gt;&lt;b&gt;Spanwright %1&lt;/b&gt;&lt;/p&gt;&lt;p&gt;The calibration record of a site&apos;s measuring channels: readings as found and as left, drift, due dates and certificates.&lt;/p&gt;&lt;p&gt;It never says that work is safe, and its certificates are neither a proof test of a safety function nor accredited unless the issuer is.&lt;/p&gt;&lt;p&gt;Free software under the GPL, version 3 or later.&lt;/p&gt;</source>
        <translation>&lt;p&gt;&lt;b&gt;Spanwright %1&lt;/b&gt;&lt;/p&gt;&lt;p&gt;Die Kalibrierakte der Messkanäle eines Standorts: Ablesungen wie vorgefunden und wie hinterlassen, Drift, Fälligkeiten und Kalibrierscheine.&lt;/p&gt;&lt;p&gt;Es sagt nie, dass eine Arbeit sicher ist, und seine Kalibrierscheine sind weder die Wiederholungsprüfung einer Sicherheitsfunktion noch akkreditiert, wenn es der Aussteller nicht ist.&lt;/p&gt;&lt;p&gt;Freie Software unter der GPL, Version 3 oder später.&lt;/p&gt;</translation>
    </message>
    <message>
        <source>&amp;Language</source>
        <translation>&amp;Sprache</translation>
    </message>
    <message>
        <source>The language of the window, with its dates and numbers</source>
        <translation>Die Sprache des Fensters, mit ihren Daten und Zahlen</translation>
    </message>
    <message>
        <source>Open a record</source>
        <translation>Akte öffnen</translation>
    </message>
    <message>
        <source>Records (*%1);;All files (*)</source>
        <translation>Akten (*%1);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Site file that describes the new record</source>
        <translation>Standortdatei, die die neue Akte beschreibt</translation>
    </message>
    <message>
        <source>Site files (*.toml)</source>
        <translation>Standortdateien (*.toml)</translation>
    </message>
    <message>
        <source>Where the new record is to be</source>
        <translation>Wo die neue Akte liegen soll</translation>
    </message>
    <message>
        <source>Records (*%1)</source>
        <translation>Akten (*%1)</translation>
    </message>
    <message>
        <source>The sample record is not beside the program; make it with sample_sites/run, then try again.</source>
        <translation>Die Beispielakte liegt nicht beim Programm; mit sample_sites/run anlegen, dann noch einmal versuchen.</translation>
    </message>
    <message>
        <source>The sample record could not be copied to %1; make room there, then try again.</source>
        <translation>Die Beispielakte ließ sich nicht nach %1 kopieren; dort Platz schaffen, dann noch einmal versuchen.</translation>
    </message>
    <message>
        <source>Another program is writing to the record; waiting.</source>
        <translation>Ein anderes Programm schreibt in die Akte; es wird gewartet.</translation>
    </message>
    <message>
        <source>The visit to %1 begun %2 is not finished.</source>
        <translation>Der Einsatz an %1, begonnen %2, ist nicht abgeschlossen.</translation>
    </message>
    <message>
        <source>Go on with it</source>
        <translation>Fortsetzen</translation>
    </message>
    <message>
        <source>Discard it</source>
        <translation>Verwerfen</translation>
    </message>
    <message>
        <source>Discard the draft</source>
        <translation>Entwurf verwerfen</translation>
    </message>
    <message>
        <source>1 value of %2 will be lost.</source>
        <translation>1 Wert von %2 geht verloren.</translation>
    </message>
    <message>
        <source>%1 values of %2 will be lost.</source>
        <translation>%1 Werte von %2 gehen verloren.</translation>
    </message>
    <message>
        <source>Discard</source>
        <translation>Verwerfen</translation>
    </message>
    <message>
        <source>Keep</source>
        <translation>Behalten</translation>
    </message>
    <message>
        <source>There is no calibration here to sign.</source>
        <translation>Hier gibt es keine Kalibrierung zu unterschreiben.</translation>
    </message>
    <message>
        <source>No round is open with a channel to do; choose or make one under Rounds.</source>
        <translation>Kein Rundgang ist offen, in dem ein Kanal zu tun ist; unter Rundgänge einen wählen oder anlegen.</translation>
    </message>
    <message>
        <source>There is no calibration here yet.</source>
        <translation>Hier gibt es noch keine Kalibrierung.</translation>
    </message>
    <message>
        <source>&amp;Manage</source>
        <translation>&amp;Bearbeiten</translation>
    </message>
    <message>
        <source>Choose a channel or a place first.</source>
        <translation>Zuerst einen Kanal oder einen Ort wählen.</translation>
    </message>
    <message>
        <source>Choose a channel first.</source>
        <translation>Zuerst einen Kanal wählen.</translation>
    </message>
    <message>
        <source>Text &amp;size</source>
        <translation>Schrift&amp;größe</translation>
    </message>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>There is no calibration here to certify.</source>
        <translation>Hier ist keine Kalibrierung zu bescheinigen.</translation>
    </message>
    <message>
        <source>Every stop of &quot;%1&quot; is done; its certificates, labels and its end are under Rounds.</source>
        <translation>Jeder Halt von „%1“ ist erledigt; Kalibrierscheine, Etiketten und Abschluss stehen unter Rundgänge.</translation>
    </message>
    <message>
        <source>This site has no channels yet: people, intervals, plans and standards come first, then channels with their setup.</source>
        <translation>Dieser Standort hat noch keine Kanäle: zuerst kommen Personen, Intervalle, Pläne und Normale, dann Kanäle mit ihrer Parametrierung.</translation>
    </message>
    <message>
        <source>Lists of the register…</source>
        <translation>Listen des Registers…</translation>
    </message>
    <message>
        <source>New channel…</source>
        <translation>Neuer Kanal…</translation>
    </message>
</context>
<context>
    <name>spanwright::MessageBar</name>
    <message>
        <source>Dismiss</source>
        <translation>Ausblenden</translation>
    </message>
    <message>
        <source>Message</source>
        <translation>Meldung</translation>
    </message>
</context>
<context>
    <name>spanwright::NewSetupForm</name>
    <message>
        <source>Leaves unproven: %1, proven on %2 (calibration %3), due %4.</source>
        <translation>Verliert den Nachweis: %1, nachgewiesen am %2 (Kalibrierung %3), fällig %4.</translation>
    </message>
    <message>
        <source>Leaves nothing unproven: nothing of %1 is proven now.</source>
        <translation>Kein Nachweis geht verloren: für %1 ist zurzeit nichts nachgewiesen.</translation>
    </message>
    <message>
        <source>1 calibration since that moment stays under the setup before.</source>
        <translation>1 Kalibrierung seit diesem Zeitpunkt bleibt unter der vorigen Parametrierung.</translation>
    </message>
    <message>
        <source>%1 calibrations since that moment stay under the setup before.</source>
        <translation>%1 Kalibrierungen seit diesem Zeitpunkt bleiben unter der vorigen Parametrierung.</translation>
    </message>
    <message>
        <source>New setup of %1</source>
        <translation>Neue Parametrierung von %1</translation>
    </message>
    <message>
        <source>Put in force</source>
        <translation>In Kraft setzen</translation>
    </message>
    <message>
        <source>Entered &amp;by</source>
        <translation>Eingetragen &amp;von</translation>
    </message>
    <message>
        <source>Entered by</source>
        <translation>Eingetragen von</translation>
    </message>
    <message>
        <source>What it costs</source>
        <translation>Was sie kostet</translation>
    </message>
    <message>
        <source>Setup %1 of %2 is in force from %3.</source>
        <translation>Parametrierung %1 von %2 ist ab %3 in Kraft.</translation>
    </message>
    <message>
        <source>What it leaves unproven is shown here as soon as it is complete.</source>
        <translation>Welche Nachweise verloren gehen, steht hier, sobald sie vollständig ist.</translation>
    </message>
</context>
<context>
    <name>spanwright::NewSiteForm</name>
    <message>
        <source>Records (*.spanwright)</source>
        <translation>Akten (*.spanwright)</translation>
    </message>
    <message>
        <source>New site</source>
        <translation>Neuer Standort</translation>
    </message>
    <message>
        <source>Make the record</source>
        <translation>Akte anlegen</translation>
    </message>
    <message>
        <source>The site</source>
        <translation>Der Standort</translation>
    </message>
    <message>
        <source>&amp;Code</source>
        <translation>Kür&amp;zel</translation>
    </message>
    <message>
        <source>2 to 8 capital letters and digits</source>
        <translation>2 bis 8 Großbuchstaben und Ziffern</translation>
    </message>
    <message>
        <source>&amp;Name</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>&amp;Address</source>
        <translation>&amp;Anschrift</translation>
    </message>
    <message>
        <source>First &amp;place</source>
        <translation>Erster &amp;Ort</translation>
    </message>
    <message>
        <source>For instance Hall / Cabinet 1</source>
        <translation>Zum Beispiel Halle / Schrank 1</translation>
    </message>
    <message>
        <source>&amp;Issuer</source>
        <translation>Aus&amp;steller</translation>
    </message>
    <message>
        <source>C&amp;ustomer</source>
        <translation>&amp;Kunde</translation>
    </message>
    <message>
        <source>The first person</source>
        <translation>Die erste Person</translation>
    </message>
    <message>
        <source>&amp;Login</source>
        <translation>Anme&amp;ldename</translation>
    </message>
    <message>
        <source>Short name by which signatures are told</source>
        <translation>Kurzer Name, unter dem Unterschriften stehen</translation>
    </message>
    <message>
        <source>Person&apos;s na&amp;me</source>
        <translation>Na&amp;me der Person</translation>
    </message>
    <message>
        <source>Roles</source>
        <translation>Rollen</translation>
    </message>
    <message>
        <source>&amp;technician</source>
        <translation>&amp;Techniker</translation>
    </message>
    <message>
        <source>plann&amp;er</source>
        <translation>Plan&amp;er</translation>
    </message>
    <message>
        <source>&amp;reviewer</source>
        <translation>P&amp;rüfer</translation>
    </message>
    <message>
        <source>a&amp;dministrator</source>
        <translation>Ver&amp;walter</translation>
    </message>
    <message>
        <source>&amp;Hours per week</source>
        <translation>St&amp;unden je Woche</translation>
    </message>
    <message>
        <source>for calibrations</source>
        <translation>für Kalibrierungen</translation>
    </message>
    <message>
        <source>The record</source>
        <translation>Die Akte</translation>
    </message>
    <message>
        <source>&amp;File</source>
        <translation>&amp;Datei</translation>
    </message>
    <message>
        <source>Ch&amp;oose…</source>
        <translation>Wä&amp;hlen…</translation>
    </message>
    <message>
        <source>One file holds all of the site; times in it are those of the clock on the wall. Places, channels, plans, standards and people are added afterwards, under Manage.</source>
        <translation>Eine Datei enthält den ganzen Standort; Zeiten darin sind die der Uhr an der Wand. Orte, Kanäle, Pläne, Normale und Personen kommen danach unter Bearbeiten hinzu.</translation>
    </message>
    <message>
        <source>the record has no file</source>
        <translation>die Akte hat keine Datei</translation>
    </message>
    <message>
        <source>say where it is to be</source>
        <translation>angeben, wo sie liegen soll</translation>
    </message>
    <message>
        <source>there is a file of this name already</source>
        <translation>eine Datei dieses Namens gibt es schon</translation>
    </message>
    <message>
        <source>choose another name</source>
        <translation>einen anderen Namen wählen</translation>
    </message>
    <message>
        <source>The record of %1 is made.</source>
        <translation>Die Akte von %1 ist angelegt.</translation>
    </message>
    <message>
        <source>site</source>
        <translation>standort</translation>
    </message>
    <message>
        <source>Where the new record is to be</source>
        <translation>Wo die neue Akte liegen soll</translation>
    </message>
    <message>
        <source>Who issues the certificates, which need it</source>
        <translation>Wer die Kalibrierscheine ausstellt; sie brauchen es</translation>
    </message>
    <message>
        <source>Issuer&apos;s addre&amp;ss</source>
        <translation>Ans&amp;chrift des Ausstellers</translation>
    </message>
    <message>
        <source>For whom the certificates are, which need it</source>
        <translation>Für wen die Kalibrierscheine sind; sie brauchen es</translation>
    </message>
    <message>
        <source>Contact</source>
        <translation>Ansprechperson</translation>
    </message>
    <message>
        <source>Whom to ask there</source>
        <translation>Wen man dort fragt</translation>
    </message>
    <message>
        <source>the folder %1 is not there</source>
        <translation>den Ordner %1 gibt es nicht</translation>
    </message>
    <message>
        <source>choose one that is</source>
        <translation>einen anderen wählen</translation>
    </message>
    <message>
        <source>nothing can be written into the folder %1</source>
        <translation>in den Ordner %1 kann nichts geschrieben werden</translation>
    </message>
    <message>
        <source>choose another one</source>
        <translation>einen anderen wählen</translation>
    </message>
</context>
<context>
    <name>spanwright::NotPlannedModel</name>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>Due on</source>
        <translation>Fällig am</translation>
    </message>
    <message>
        <source>Hours</source>
        <translation>Stunden</translation>
    </message>
    <message>
        <source>Why it does not fit</source>
        <translation>Warum es nicht passt</translation>
    </message>
</context>
<context>
    <name>spanwright::NumbersPanel</name>
    <message>
        <source>How numbers come about</source>
        <translation>Wie Zahlen entstehen</translation>
    </message>
</context>
<context>
    <name>spanwright::PassphraseDialog</name>
    <message>
        <source>Whose passphrase</source>
        <translation>Wessen Passphrase</translation>
    </message>
    <message>
        <source>&amp;Passphrase now</source>
        <translation>&amp;Jetzige Passphrase</translation>
    </message>
    <message>
        <source>Passphrase now</source>
        <translation>Jetzige Passphrase</translation>
    </message>
    <message>
        <source>New passphrase</source>
        <translation>Neue Passphrase</translation>
    </message>
    <message>
        <source>New passphrase once more</source>
        <translation>Neue Passphrase noch einmal</translation>
    </message>
    <message>
        <source>Change my passphrase</source>
        <translation>Meine Passphrase ändern</translation>
    </message>
    <message>
        <source>&amp;Who</source>
        <translation>&amp;Wer</translation>
    </message>
    <message>
        <source>&amp;New passphrase</source>
        <translation>&amp;Neue Passphrase</translation>
    </message>
    <message>
        <source>&amp;Once more</source>
        <translation>Noch &amp;einmal</translation>
    </message>
    <message>
        <source>Change</source>
        <translation>Änderung</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source>%1 has no key yet; this makes one. </source>
        <translation>%1 hat noch keinen Schlüssel; so entsteht einer. </translation>
    </message>
    <message>
        <source>At least %1 characters. Nobody can read it back; whoever forgets it asks an administrator for a new one. What was signed before stays valid.</source>
        <translation>Mindestens %1 Zeichen. Niemand kann sie auslesen; wer sie vergisst, bittet einen Verwalter um eine neue. Was vorher unterschrieben wurde, bleibt gültig.</translation>
    </message>
    <message>
        <source>Type the passphrase of %1 as it is now.</source>
        <translation>Die jetzige Passphrase von %1 eingeben.</translation>
    </message>
    <message>
        <source>The two new passphrases differ; type the same one twice.</source>
        <translation>Die beiden neuen Passphrasen unterscheiden sich; zweimal dieselbe eingeben.</translation>
    </message>
    <message>
        <source>%1 has a passphrase and can sign.</source>
        <translation>%1 hat eine Passphrase und kann unterschreiben.</translation>
    </message>
    <message>
        <source>The passphrase of %1 is changed.</source>
        <translation>Die Passphrase von %1 ist geändert.</translation>
    </message>
</context>
<context>
    <name>spanwright::PlanGrid</name>
    <message>
        <source>Weeks and days of the plan</source>
        <translation>Wochen und Tage des Plans</translation>
    </message>
</context>
<context>
    <name>spanwright::PlanScreen</name>
    <message>
        <source>The plan in a sentence</source>
        <translation>Der Plan in einem Satz</translation>
    </message>
    <message>
        <source>The chosen stop</source>
        <translation>Der gewählte Halt</translation>
    </message>
    <message>
        <source>A day &amp;earlier</source>
        <translation>Ein Tag &amp;früher</translation>
    </message>
    <message>
        <source>First day</source>
        <translation>Erster Tag</translation>
    </message>
    <message>
        <source>Weeks</source>
        <translation>Wochen</translation>
    </message>
    <message>
        <source> %</source>
        <translation> %</translation>
    </message>
    <message>
        <source>Share of everybody&apos;s hours</source>
        <translation>Anteil der Stunden aller</translation>
    </message>
    <message>
        <source>Standard that is away</source>
        <translation>Normal, das außer Haus ist</translation>
    </message>
    <message>
        <source>Away from</source>
        <translation>Außer Haus ab</translation>
    </message>
    <message>
        <source>Away until</source>
        <translation>Außer Haus bis</translation>
    </message>
    <message>
        <source>Start &amp;afresh</source>
        <translation>Neu beg&amp;innen</translation>
    </message>
    <message>
        <source>Lets go of what was supposed and of what was moved</source>
        <translation>Verwirft Annahmen und Verschobenes</translation>
    </message>
    <message>
        <source>&amp;From</source>
        <translation>&amp;Von</translation>
    </message>
    <message>
        <source>awa&amp;y</source>
        <translation>&amp;ohne</translation>
    </message>
    <message>
        <source>Stops</source>
        <translation>Halte</translation>
    </message>
    <message>
        <source>What does not fit</source>
        <translation>Was nicht passt</translation>
    </message>
    <message>
        <source>&amp;Days</source>
        <translation>&amp;Tage</translation>
    </message>
    <message>
        <source>&amp;List</source>
        <translation>&amp;Liste</translation>
    </message>
    <message>
        <source>Does &amp;not fit</source>
        <translation>&amp;Passt nicht</translation>
    </message>
    <message>
        <source>no standard</source>
        <translation>kein Normal</translation>
    </message>
    <message>
        <source>Fitting visits into weeks</source>
        <translation>Einsätze werden auf Wochen verteilt</translation>
    </message>
    <message>
        <source>Does &amp;not fit (%1)</source>
        <translation>&amp;Passt nicht (%1)</translation>
    </message>
    <message>
        <source>%1 to %2: %3 at %4</source>
        <translation>%1 bis %2: %3 an %4</translation>
    </message>
    <message>
        <source>1 visit</source>
        <translation>1 Einsatz</translation>
    </message>
    <message>
        <source>%1 visits</source>
        <translation>%1 Einsätze</translation>
    </message>
    <message>
        <source>1 stop</source>
        <translation>1 Halt</translation>
    </message>
    <message>
        <source>%1 stops</source>
        <translation>%1 Halten</translation>
    </message>
    <message>
        <source>; none is late</source>
        <translation>; keiner ist zu spät</translation>
    </message>
    <message>
        <source>; %1 with late visits</source>
        <translation>; %1 mit verspäteten Einsätzen</translation>
    </message>
    <message>
        <source>; everything fits</source>
        <translation>; alles passt</translation>
    </message>
    <message>
        <source>; %1 do not fit</source>
        <translation>; %1 passen nicht</translation>
    </message>
    <message>
        <source>; no technician has hours for calibrations</source>
        <translation>; kein Techniker hat Stunden für Kalibrierungen</translation>
    </message>
    <message>
        <source>; %1 moved by hand</source>
        <translation>; %1 von Hand verschoben</translation>
    </message>
    <message>
        <source>%1, %2 at %3: %4. Take %5.</source>
        <translation>%1, %2 an %3: %4. Mitnehmen: %5.</translation>
    </message>
    <message>
        <source>Calendar file</source>
        <translation>Kalenderdatei</translation>
    </message>
    <message>
        <source>Calendars (*.ics)</source>
        <translation>Kalender (*.ics)</translation>
    </message>
    <message>
        <source>%1 could not be written (%2); choose another folder.</source>
        <translation>%1 ließ sich nicht schreiben (%2); einen anderen Ordner wählen.</translation>
    </message>
    <message>
        <source>%1 written with %2.</source>
        <translation>%1 geschrieben mit %2.</translation>
    </message>
    <message>
        <source>A day la&amp;ter</source>
        <translation>Ein Tag &amp;später</translation>
    </message>
    <message>
        <source>&amp;Calendar file…</source>
        <translation>&amp;Kalenderdatei…</translation>
    </message>
    <message>
        <source>Wee&amp;ks</source>
        <translation>&amp;Wochen</translation>
    </message>
    <message>
        <source>What if: h&amp;ours</source>
        <translation>Was wäre wenn: St&amp;unden</translation>
    </message>
    <message>
        <source>Make a ro&amp;und</source>
        <translation>Zum Rundgang &amp;machen</translation>
    </message>
    <message>
        <source>Keeps the chosen stop as a round of its person</source>
        <translation>Hält den gewählten Halt als Rundgang seiner Person fest</translation>
    </message>
    <message>
        <source>Round &amp;sheet…</source>
        <translation>Run&amp;dgangsblatt…</translation>
    </message>
    <message>
        <source>The chosen stop&apos;s sheet, to be printed and taken along</source>
        <translation>Das Blatt des gewählten Halts, zum Drucken und Mitnehmen</translation>
    </message>
    <message>
        <source>The round &quot;%1&quot; has %2.</source>
        <translation>Der Rundgang „%1“ hat %2.</translation>
    </message>
</context>
<context>
    <name>spanwright::PlanStopsModel</name>
    <message>
        <source>%1 h</source>
        <translation>%1 h</translation>
    </message>
    <message>
        <source>Day</source>
        <translation>Tag</translation>
    </message>
    <message>
        <source>Technician</source>
        <translation>Techniker</translation>
    </message>
    <message>
        <source>Cabinet</source>
        <translation>Schaltschrank</translation>
    </message>
    <message>
        <source>Channels</source>
        <translation>Kanäle</translation>
    </message>
    <message>
        <source>Hours</source>
        <translation>Stunden</translation>
    </message>
    <message>
        <source>Standards to take</source>
        <translation>Mitzunehmende Normale</translation>
    </message>
    <message>
        <source>Not by its due day, because</source>
        <translation>Nicht bis zur Fälligkeit, weil</translation>
    </message>
</context>
<context>
    <name>spanwright::PlanWeeksModel</name>
    <message>
        <source>%1: %2, %3, %4</source>
        <translation>%1: %2, %3, %4</translation>
    </message>
    <message>
        <source>1 visit</source>
        <translation>1 Einsatz</translation>
    </message>
    <message>
        <source>%1 visits</source>
        <translation>%1 Einsätze</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Week %1
%2</source>
        <translation>KW %1
%2</translation>
    </message>
    <message>
        <source>%1: %2 of %3</source>
        <translation>%1: %2 von %3</translation>
    </message>
    <message>
        <source>, not a day of this plan</source>
        <translation>, kein Tag dieses Plans</translation>
    </message>
    <message>
        <source> (late)</source>
        <translation> (verspätet)</translation>
    </message>
    <message>
        <source>Week</source>
        <translation>Woche</translation>
    </message>
    <message>
        <source>Hours planned</source>
        <translation>Geplante Stunden</translation>
    </message>
</context>
<context>
    <name>spanwright::PointTable</name>
    <message>
        <source>Points of the certificate</source>
        <translation>Punkte des Kalibrierscheins</translation>
    </message>
    <message>
        <source>Unit</source>
        <translation>Einheit</translation>
    </message>
    <message>
        <source>Resolution</source>
        <translation>Auflösung</translation>
    </message>
    <message>
        <source>Nominal</source>
        <translation>Nennwert</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Messabweichung</translation>
    </message>
    <message>
        <source>Uncertainty</source>
        <translation>Messunsicherheit</translation>
    </message>
</context>
<context>
    <name>spanwright::ReachScreen</name>
    <message>
        <source>Choose a standard on the page of standards.</source>
        <translation>Auf der Seite der Normale ein Normal wählen.</translation>
    </message>
    <message>
        <source>Standard %1 found out of tolerance: what did it reach?</source>
        <translation>Normal %1 außerhalb der Toleranz gefunden: was ist betroffen?</translation>
    </message>
    <message>
        <source>Working out what standard %1 reached</source>
        <translation>Ermitteln, was vom Normal %1 betroffen ist</translation>
    </message>
    <message>
        <source>It was not worked out to the end. Ask again when you want to know.</source>
        <translation>Es wurde nicht zu Ende ermittelt. Bei Bedarf noch einmal fragen.</translation>
    </message>
    <message>
        <source>No calibration is chosen.</source>
        <translation>Keine Kalibrierung ist gewählt.</translation>
    </message>
    <message>
        <source>Calibration %1 of %2, made under certificate %3</source>
        <translation>Kalibrierung %1 von %2, gemacht mit Kalibrierschein %3</translation>
    </message>
    <message>
        <source>It cannot be judged again: %1.</source>
        <translation>Sie kann nicht erneut bewertet werden: %1.</translation>
    </message>
    <message>
        <source>1 channel needs a visit: what was left then no longer passes, or cannot be judged, and no later calibration with another standard clears it.</source>
        <translation>1 Kanal braucht einen Einsatz: was damals hinterlassen wurde, besteht nicht mehr oder kann nicht bewertet werden, und keine spätere Kalibrierung mit einem anderen Normal klärt es.</translation>
    </message>
    <message>
        <source>%1 channels need a visit, in walking order: what was left then no longer passes, or cannot be judged, and no later calibration with another standard clears it.</source>
        <translation>%1 Kanäle brauchen einen Einsatz, in der Reihenfolge des Weges: was damals hinterlassen wurde, besteht nicht mehr oder kann nicht bewertet werden, und keine spätere Kalibrierung mit einem anderen Normal klärt es.</translation>
    </message>
    <message>
        <source>No channel needs a visit for this.</source>
        <translation>Kein Kanal braucht deshalb einen Einsatz.</translation>
    </message>
    <message>
        <source>Standard %1, found %2</source>
        <translation>Normal %1, Befund vom %2</translation>
    </message>
    <message>
        <source>The round &quot;%2&quot; holds the channel to visit again.</source>
        <translation>Der Rundgang &quot;%2&quot; enthält den Kanal, der wieder aufzusuchen ist.</translation>
    </message>
    <message>
        <source>The round &quot;%2&quot; holds the %1 channels to visit again.</source>
        <translation>Der Rundgang &quot;%2&quot; enthält die %1 Kanäle, die wieder aufzusuchen sind.</translation>
    </message>
    <message>
        <source>List of channels</source>
        <translation>Liste der Kanäle</translation>
    </message>
    <message>
        <source>Tables (*.csv)</source>
        <translation>Tabellen (*.csv)</translation>
    </message>
    <message>
        <source>The list could not be written to %1 (%2); choose another place.</source>
        <translation>Die Liste konnte nicht nach %1 geschrieben werden (%2); einen anderen Ort wählen.</translation>
    </message>
    <message>
        <source>The list of channels is in %1.</source>
        <translation>Die Liste der Kanäle steht in %1.</translation>
    </message>
    <message>
        <source>Steps</source>
        <translation>Schritte</translation>
    </message>
    <message>
        <source>&amp;1  What was found</source>
        <translation>&amp;1  Was gefunden wurde</translation>
    </message>
    <message>
        <source>&amp;2  What it reached</source>
        <translation>&amp;2  Was betroffen ist</translation>
    </message>
    <message>
        <source>&amp;3  What to do</source>
        <translation>&amp;3  Was zu tun ist</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Only those that &amp;change</source>
        <translation>Nur &amp;veränderte</translation>
    </message>
    <message>
        <source>What to &amp;do</source>
        <translation>Was &amp;zu tun ist</translation>
    </message>
    <message>
        <source>Calibrations reached</source>
        <translation>Betroffene Kalibrierungen</translation>
    </message>
    <message>
        <source>Points of the calibration chosen</source>
        <translation>Messpunkte der gewählten Kalibrierung</translation>
    </message>
    <message>
        <source>Channels to visit again</source>
        <translation>Wieder aufzusuchende Kanäle</translation>
    </message>
    <message>
        <source>Name of the round</source>
        <translation>Name des Rundgangs</translation>
    </message>
    <message>
        <source>Who walks it</source>
        <translation>Wer ihn geht</translation>
    </message>
    <message>
        <source>Ma&amp;ke a round</source>
        <translation>Rundgang an&amp;legen</translation>
    </message>
    <message>
        <source>&amp;Save list…</source>
        <translation>Liste &amp;speichern…</translation>
    </message>
    <message>
        <source>Take the standard &amp;out of service…</source>
        <translation>Normal außer Betrieb neh&amp;men…</translation>
    </message>
    <message>
        <source>&amp;Name of the round</source>
        <translation>Name &amp;des Rundgangs</translation>
    </message>
    <message>
        <source>&amp;For</source>
        <translation>&amp;Für</translation>
    </message>
    <message>
        <source>anybody</source>
        <translation>alle</translation>
    </message>
</context>
<context>
    <name>spanwright::ReachVisitsModel</name>
    <message>
        <source>Stop</source>
        <translation>Halt</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Title</source>
        <translation>Bezeichnung</translation>
    </message>
    <message>
        <source>Calibrations in doubt</source>
        <translation>Zweifelhafte Kalibrierungen</translation>
    </message>
</context>
<context>
    <name>spanwright::ReachedModel</name>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>No.</source>
        <translation>Nr.</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Performed</source>
        <translation>Durchgeführt</translation>
    </message>
    <message>
        <source>As found</source>
        <translation>Vorgefunden</translation>
    </message>
    <message>
        <source>As left</source>
        <translation>Hinterlassen</translation>
    </message>
    <message>
        <source>Then</source>
        <translation>Dann</translation>
    </message>
    <message>
        <source>Worst point</source>
        <translation>Schlechtester Messpunkt</translation>
    </message>
    <message>
        <source>Error was</source>
        <translation>Abw. war</translation>
    </message>
    <message>
        <source>Becomes</source>
        <translation>Wird</translation>
    </message>
</context>
<context>
    <name>spanwright::ReachedPointsModel</name>
    <message>
        <source>cannot be told</source>
        <translation>nicht bestimmbar</translation>
    </message>
    <message>
        <source>Point</source>
        <translation>Messpunkt</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Bewertung</translation>
    </message>
    <message>
        <source>Error was</source>
        <translation>Abw. war</translation>
    </message>
    <message>
        <source>Becomes</source>
        <translation>Wird</translation>
    </message>
    <message>
        <source>Certificate said</source>
        <translation>Laut Kalibrierschein</translation>
    </message>
    <message>
        <source>Found</source>
        <translation>Gefunden</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>not in the finding, left as it was</source>
        <translation>nicht im Befund, blieb wie er war</translation>
    </message>
    <message>
        <source>just beyond the values found</source>
        <translation>knapp jenseits der gefundenen Werte</translation>
    </message>
</context>
<context>
    <name>spanwright::RefusalLine</name>
    <message>
        <source>Message</source>
        <translation>Meldung</translation>
    </message>
</context>
<context>
    <name>spanwright::RegisterDialog</name>
    <message>
        <source>People</source>
        <translation>Personen</translation>
    </message>
    <message>
        <source>Places</source>
        <translation>Orte</translation>
    </message>
    <message>
        <source>Plans</source>
        <translation>Pläne</translation>
    </message>
    <message>
        <source>Interval policies</source>
        <translation>Intervallverfahren</translation>
    </message>
    <message>
        <source>Standards</source>
        <translation>Normale</translation>
    </message>
    <message>
        <source>Sensors</source>
        <translation>Sensoren</translation>
    </message>
    <message>
        <source>Login</source>
        <translation>Anmeldename</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Roles</source>
        <translation>Rollen</translation>
    </message>
    <message>
        <source>Hours</source>
        <translation>Stunden</translation>
    </message>
    <message>
        <source>Left</source>
        <translation>Ausgeschieden</translation>
    </message>
    <message>
        <source>Code</source>
        <translation>Kürzel</translation>
    </message>
    <message>
        <source>Revision</source>
        <translation>Revision</translation>
    </message>
    <message>
        <source>Title</source>
        <translation>Titel</translation>
    </message>
    <message>
        <source>Points [%]</source>
        <translation>Punkte [%]</translation>
    </message>
    <message>
        <source>Tolerance</source>
        <translation>Toleranz</translation>
    </message>
    <message>
        <source>fixed</source>
        <translation>fest</translation>
    </message>
    <message>
        <source>staircase</source>
        <translation>Treppe</translation>
    </message>
    <message>
        <source>reliability</source>
        <translation>Zuverlässigkeit</translation>
    </message>
    <message>
        <source>forecast</source>
        <translation>Vorhersage</translation>
    </message>
    <message>
        <source>Policy</source>
        <translation>Verfahren</translation>
    </message>
    <message>
        <source>Begins with</source>
        <translation>Beginnt mit</translation>
    </message>
    <message>
        <source>1 month</source>
        <translation>1 Monat</translation>
    </message>
    <message>
        <source>%1 months</source>
        <translation>%1 Monate</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Walking order</source>
        <translation>Reihenfolge</translation>
    </message>
    <message>
        <source>Serial number</source>
        <translation>Seriennummer</translation>
    </message>
    <message>
        <source>Description</source>
        <translation>Beschreibung</translation>
    </message>
    <message>
        <source>Model</source>
        <translation>Modell</translation>
    </message>
    <message>
        <source>Certificates</source>
        <translation>Kalibrierscheine</translation>
    </message>
    <message>
        <source>Range</source>
        <translation>Bereich</translation>
    </message>
    <message>
        <source>&amp;New…</source>
        <translation>&amp;Neu…</translation>
    </message>
    <message>
        <source>&amp;Change…</source>
        <translation>Än&amp;dern…</translation>
    </message>
    <message>
        <source>The register</source>
        <translation>Das Register</translation>
    </message>
    <message>
        <source>Lists</source>
        <translation>Listen</translation>
    </message>
    <message>
        <source>Narrow the list</source>
        <translation>Liste eingrenzen</translation>
    </message>
    <message>
        <source>C&amp;lose</source>
        <translation>S&amp;chließen</translation>
    </message>
    <message>
        <source>&amp;Has left…</source>
        <translation>&amp;Ausgeschieden…</translation>
    </message>
    <message>
        <source>New c&amp;ertificate…</source>
        <translation>Neuer &amp;Kalibrierschein…</translation>
    </message>
</context>
<context>
    <name>spanwright::RegisterForm</name>
    <message>
        <source>The site</source>
        <translation>Der Standort</translation>
    </message>
    <message>
        <source>Place %1</source>
        <translation>Ort %1</translation>
    </message>
    <message>
        <source>Person %1</source>
        <translation>Person %1</translation>
    </message>
    <message>
        <source>Standard %1</source>
        <translation>Normal %1</translation>
    </message>
    <message>
        <source>Sensor %1</source>
        <translation>Sensor %1</translation>
    </message>
    <message>
        <source>Plan %1</source>
        <translation>Plan %1</translation>
    </message>
    <message>
        <source>Interval policy %1</source>
        <translation>Intervallverfahren %1</translation>
    </message>
    <message>
        <source>Channel %1</source>
        <translation>Kanal %1</translation>
    </message>
    <message>
        <source>New site</source>
        <translation>Neuer Standort</translation>
    </message>
    <message>
        <source>New place</source>
        <translation>Neuer Ort</translation>
    </message>
    <message>
        <source>New person</source>
        <translation>Neue Person</translation>
    </message>
    <message>
        <source>New standard</source>
        <translation>Neues Normal</translation>
    </message>
    <message>
        <source>New sensor</source>
        <translation>Neuer Sensor</translation>
    </message>
    <message>
        <source>New plan</source>
        <translation>Neuer Plan</translation>
    </message>
    <message>
        <source>New interval policy</source>
        <translation>Neues Intervallverfahren</translation>
    </message>
    <message>
        <source>New channel</source>
        <translation>Neuer Kanal</translation>
    </message>
    <message>
        <source>Add</source>
        <translation>Anlegen</translation>
    </message>
    <message>
        <source>Save</source>
        <translation>Speichern</translation>
    </message>
    <message>
        <source>%1 is in the record.</source>
        <translation>%1 steht in der Akte.</translation>
    </message>
    <message>
        <source>%1 is changed.</source>
        <translation>%1 ist geändert.</translation>
    </message>
    <message>
        <source>Entered &amp;by</source>
        <translation>Eingetragen &amp;von</translation>
    </message>
    <message>
        <source>Entered by</source>
        <translation>Eingetragen von</translation>
    </message>
    <message>
        <source>New…</source>
        <translation>Neu…</translation>
    </message>
    <message>
        <source>&amp;Code</source>
        <translation>Kür&amp;zel</translation>
    </message>
    <message>
        <source>2 to 8 capital letters and digits</source>
        <translation>2 bis 8 Großbuchstaben und Ziffern</translation>
    </message>
    <message>
        <source>&amp;Name</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>&amp;Address</source>
        <translation>&amp;Anschrift</translation>
    </message>
    <message>
        <source>C&amp;ustomer</source>
        <translation>&amp;Kunde</translation>
    </message>
    <message>
        <source>Con&amp;tact</source>
        <translation>Ansprechpar&amp;tner</translation>
    </message>
    <message>
        <source>&amp;Issuer</source>
        <translation>Aus&amp;steller</translation>
    </message>
    <message>
        <source>Issuer&apos;s a&amp;ddress</source>
        <translation>Anschrift &amp;des Ausstellers</translation>
    </message>
    <message>
        <source>N&amp;ote</source>
        <translation>&amp;Hinweis</translation>
    </message>
    <message>
        <source>Printed on every certificate</source>
        <translation>Steht auf jedem Kalibrierschein</translation>
    </message>
    <message>
        <source>The customer &amp;wants due dates on certificates</source>
        <translation>Der Kunde &amp;wünscht Fälligkeiten auf Kalibrierscheinen</translation>
    </message>
    <message>
        <source>Hall, cabinet or station</source>
        <translation>Halle, Schrank oder Station</translation>
    </message>
    <message>
        <source>nothing: it is a place of its own</source>
        <translation>nichts: es ist ein eigener Ort</translation>
    </message>
    <message>
        <source>&amp;Within</source>
        <translation>&amp;Innerhalb von</translation>
    </message>
    <message>
        <source>Walking &amp;order</source>
        <translation>&amp;Reihenfolge</translation>
    </message>
    <message>
        <source>after those that are there</source>
        <translation>nach denen, die es gibt</translation>
    </message>
    <message>
        <source>&amp;Login</source>
        <translation>Anme&amp;ldename</translation>
    </message>
    <message>
        <source>Short name by which signatures are told</source>
        <translation>Kurzer Name, unter dem Unterschriften stehen</translation>
    </message>
    <message>
        <source>Roles</source>
        <translation>Rollen</translation>
    </message>
    <message>
        <source>&amp;technician</source>
        <translation>&amp;Techniker</translation>
    </message>
    <message>
        <source>&amp;planner</source>
        <translation>&amp;Planer</translation>
    </message>
    <message>
        <source>&amp;reviewer</source>
        <translation>P&amp;rüfer</translation>
    </message>
    <message>
        <source>&amp;administrator</source>
        <translation>Ver&amp;walter</translation>
    </message>
    <message>
        <source>&amp;Hours per week</source>
        <translation>St&amp;unden je Woche</translation>
    </message>
    <message>
        <source>for calibrations; visits are planned for them</source>
        <translation>für Kalibrierungen; dafür werden Einsätze geplant</translation>
    </message>
    <message>
        <source>&amp;Days away</source>
        <translation>&amp;Abwesend</translation>
    </message>
    <message>
        <source>2026-07-01 to 2026-07-14 holidays</source>
        <translation>2026-07-01 bis 2026-07-14 Urlaub</translation>
    </message>
    <message>
        <source>&amp;Serial number</source>
        <translation>&amp;Seriennummer</translation>
    </message>
    <message>
        <source>&amp;Description</source>
        <translation>&amp;Beschreibung</translation>
    </message>
    <message>
        <source>For instance mA source</source>
        <translation>Zum Beispiel mA-Quelle</translation>
    </message>
    <message>
        <source>&amp;Maker</source>
        <translation>&amp;Hersteller</translation>
    </message>
    <message>
        <source>M&amp;odel</source>
        <translation>M&amp;odell</translation>
    </message>
    <message>
        <source>Kept a&amp;t</source>
        <translation>Liegt &amp;in</translation>
    </message>
    <message>
        <source>M&amp;easures</source>
        <translation>&amp;Misst</translation>
    </message>
    <message>
        <source>&amp;Gives</source>
        <translation>&amp;Gibt aus</translation>
    </message>
    <message>
        <source>none: it gives what stands above</source>
        <translation>keines: er gibt aus, was oben steht</translation>
    </message>
    <message>
        <source>thermocouple type %1</source>
        <translation>Thermoelement Typ %1</translation>
    </message>
    <message>
        <source>E&amp;lement</source>
        <translation>E&amp;lement</translation>
    </message>
    <message>
        <source>T&amp;ransfer</source>
        <translation>Über&amp;tragung</translation>
    </message>
    <message>
        <source>linear</source>
        <translation>linear</translation>
    </message>
    <message>
        <source>square root</source>
        <translation>radizierend</translation>
    </message>
    <message>
        <source>&amp;Revision</source>
        <translation>&amp;Revision</translation>
    </message>
    <message>
        <source>&amp;Title</source>
        <translation>&amp;Titel</translation>
    </message>
    <message>
        <source>&amp;Procedure</source>
        <translation>Arbeitsan&amp;weisung</translation>
    </message>
    <message>
        <source>The method and its revision</source>
        <translation>Die Arbeitsanweisung und ihre Revision</translation>
    </message>
    <message>
        <source>P&amp;oints [%]</source>
        <translation>&amp;Punkte [%]</translation>
    </message>
    <message>
        <source>Or&amp;der</source>
        <translation>Reihen&amp;folge</translation>
    </message>
    <message>
        <source>rising</source>
        <translation>steigend</translation>
    </message>
    <message>
        <source>rising, then falling</source>
        <translation>steigend, dann fallend</translation>
    </message>
    <message>
        <source>falling</source>
        <translation>fallend</translation>
    </message>
    <message>
        <source>falling, then rising</source>
        <translation>fallend, dann steigend</translation>
    </message>
    <message>
        <source>Repeats</source>
        <translation>Wiederholungen</translation>
    </message>
    <message>
        <source>Also</source>
        <translation>Außerdem</translation>
    </message>
    <message>
        <source>trip and reset of a&amp;larms</source>
        <translation>An&amp;sprechen und Rückfall der Alarme</translation>
    </message>
    <message>
        <source>loss of comm&amp;unication</source>
        <translation>A&amp;usfall der Kommunikation</translation>
    </message>
    <message>
        <source>% of reading</source>
        <translation>% der Ablesung</translation>
    </message>
    <message>
        <source>% of span</source>
        <translation>% der Spanne</translation>
    </message>
    <message>
        <source>counts</source>
        <translation>Digits</translation>
    </message>
    <message>
        <source>Tolera&amp;nce ±</source>
        <translation>T&amp;oleranz ±</translation>
    </message>
    <message>
        <source>Below, the tolerance differ&amp;s</source>
        <translation>Unterhalb gilt eine an&amp;dere Toleranz</translation>
    </message>
    <message>
        <source>Tolerance −</source>
        <translation>Toleranz −</translation>
    </message>
    <message>
        <source>0.7 of the tolerance</source>
        <translation>0,7 der Toleranz</translation>
    </message>
    <message>
        <source>Decision rule</source>
        <translation>Entscheidungsregel</translation>
    </message>
    <message>
        <source>simple acceptance</source>
        <translation>einfache Annahme</translation>
    </message>
    <message>
        <source>guard band by the uncertainty</source>
        <translation>Sicherheitsband nach Messunsicherheit</translation>
    </message>
    <message>
        <source>guard band by false acceptance</source>
        <translation>Sicherheitsband nach falscher Annahme</translation>
    </message>
    <message>
        <source>Guard band [U]</source>
        <translation>Sicherheitsband [U]</translation>
    </message>
    <message>
        <source>False acceptance</source>
        <translation>Falsche Annahme</translation>
    </message>
    <message>
        <source>Whatever the spread of the subjects</source>
        <translation>Welche Streuung die Gegenstände auch haben</translation>
    </message>
    <message>
        <source>Minutes of a visit</source>
        <translation>Minuten eines Einsatzes</translation>
    </message>
    <message>
        <source>Settling [s]</source>
        <translation>Beruhigung [s]</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>not stated</source>
        <translation>nicht angegeben</translation>
    </message>
    <message>
        <source>Cautions</source>
        <translation>Sicherheitshinweise</translation>
    </message>
    <message>
        <source>One a line; confirmed before readings are typed</source>
        <translation>Einer je Zeile; vor den Ablesungen bestätigt</translation>
    </message>
    <message>
        <source>For instance yearly</source>
        <translation>Zum Beispiel jährlich</translation>
    </message>
    <message>
        <source>&amp;Policy</source>
        <translation>Verfah&amp;ren</translation>
    </message>
    <message>
        <source>fixed</source>
        <translation>fest</translation>
    </message>
    <message>
        <source>staircase: a step up or down after each visit</source>
        <translation>Treppe: nach jedem Einsatz eine Stufe auf oder ab</translation>
    </message>
    <message>
        <source>reliability: found in tolerance often enough</source>
        <translation>Zuverlässigkeit: oft genug in Toleranz vorgefunden</translation>
    </message>
    <message>
        <source>forecast: before the drift leaves the tolerance</source>
        <translation>Vorhersage: bevor die Drift die Toleranz verlässt</translation>
    </message>
    <message>
        <source>&amp;Months</source>
        <translation>&amp;Monate</translation>
    </message>
    <message>
        <source>this or days</source>
        <translation>dies oder Tage</translation>
    </message>
    <message>
        <source>&amp;Days</source>
        <translation>&amp;Tage</translation>
    </message>
    <message>
        <source>At &amp;least [days]</source>
        <translation>Min&amp;destens [Tage]</translation>
    </message>
    <message>
        <source>At m&amp;ost [days]</source>
        <translation>&amp;Höchstens [Tage]</translation>
    </message>
    <message>
        <source>Step &amp;up, factor</source>
        <translation>Stufe a&amp;uf, Faktor</translation>
    </message>
    <message>
        <source>Step do&amp;wn, factor</source>
        <translation>Stufe a&amp;b, Faktor</translation>
    </message>
    <message>
        <source>&amp;Target</source>
        <translation>Z&amp;iel</translation>
    </message>
    <message>
        <source>Con&amp;fidence</source>
        <translation>Vertrauensni&amp;veau</translation>
    </message>
    <message>
        <source>Least outcom&amp;es</source>
        <translation>Wenigste Er&amp;gebnisse</translation>
    </message>
    <message>
        <source>How often</source>
        <translation>Wie oft</translation>
    </message>
    <message>
        <source>&amp;Tag</source>
        <translation>Ke&amp;nnzeichen</translation>
    </message>
    <message>
        <source>T&amp;itle</source>
        <translation>&amp;Titel</translation>
    </message>
    <message>
        <source>What it measures, for instance tank temperature</source>
        <translation>Was er misst, zum Beispiel Tanktemperatur</translation>
    </message>
    <message>
        <source>&amp;Place</source>
        <translation>&amp;Ort</translation>
    </message>
    <message>
        <source>Te&amp;rminal</source>
        <translation>K&amp;lemme</translation>
    </message>
    <message>
        <source>Ca&amp;libration plan</source>
        <translation>Kalibrier&amp;plan</translation>
    </message>
    <message>
        <source>Sens&amp;or fitted</source>
        <translation>Ein&amp;gebauter Sensor</translation>
    </message>
    <message>
        <source>Plan of the sensor</source>
        <translation>Plan des Sensors</translation>
    </message>
    <message>
        <source>Plan of the loop</source>
        <translation>Plan des Messkreises</translation>
    </message>
    <message>
        <source>No longer &amp;calibrated</source>
        <translation>Wird ni&amp;cht mehr kalibriert</translation>
    </message>
    <message>
        <source>Working days</source>
        <translation>Arbeitstage</translation>
    </message>
    <message>
        <source>C&amp;losed</source>
        <translation>Gesch&amp;lossen</translation>
    </message>
    <message>
        <source>2026-12-24 to 2027-01-02 winter shutdown</source>
        <translation>2026-12-24 to 2027-01-02 Winterstillstand</translation>
    </message>
    <message>
        <source>For whom the certificates are, which need it</source>
        <translation>Für wen die Kalibrierscheine sind; sie brauchen es</translation>
    </message>
    <message>
        <source>Whom to ask there</source>
        <translation>Wen man dort fragt</translation>
    </message>
    <message>
        <source>Who issues the certificates, which need it</source>
        <translation>Wer die Kalibrierscheine ausstellt; sie brauchen es</translation>
    </message>
    <message>
        <source>Due &amp;soon [days]</source>
        <translation>Bald &amp;fällig [Tage]</translation>
    </message>
    <message>
        <source>before the due day</source>
        <translation>vor dem Fälligkeitstag</translation>
    </message>
    <message>
        <source>&amp;Grace [days]</source>
        <translation>Nachfr&amp;ist [Tage]</translation>
    </message>
    <message>
        <source>after the due day, before it is overdue</source>
        <translation>nach dem Fälligkeitstag, ehe es überfällig ist</translation>
    </message>
    <message>
        <source>&amp;Early [days]</source>
        <translation>Früh&amp;estens [Tage]</translation>
    </message>
    <message>
        <source>before the due day a visit may be planned</source>
        <translation>vor dem Fälligkeitstag darf ein Einsatz geplant werden</translation>
    </message>
    <message>
        <source>for instance 0, 25, 50, 75, 100; none for levels and states</source>
        <translation>zum Beispiel 0, 25, 50, 75, 100; keine bei Pegeln und Zuständen</translation>
    </message>
    <message>
        <source>in the unit read</source>
        <translation>in der Einheit der Ablesung</translation>
    </message>
    <message>
        <source>Ad&amp;just above [tolerance]</source>
        <translation>&amp;Justieren ab [Toleranz]</translation>
    </message>
    <message>
        <source>Reference junction, U [K]</source>
        <translation>Vergleichsstelle, U [K]</translation>
    </message>
    <message>
        <source>Lead resistance ± [Ω]</source>
        <translation>Zuleitungswiderstand ± [Ω]</translation>
    </message>
</context>
<context>
    <name>spanwright::ReviewModel</name>
    <message>
        <source>review</source>
        <translation>Prüfung</translation>
    </message>
    <message>
        <source>approval</source>
        <translation>Freigabe</translation>
    </message>
    <message>
        <source>its technician</source>
        <translation>ihren Techniker</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>No.</source>
        <translation>Nr.</translation>
    </message>
    <message>
        <source>Waits for</source>
        <translation>Wartet auf</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Performed</source>
        <translation>Durchgeführt</translation>
    </message>
    <message>
        <source>By</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>As found</source>
        <translation>Vorgefunden</translation>
    </message>
    <message>
        <source>As left</source>
        <translation>Hinterlassen</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
</context>
<context>
    <name>spanwright::ReviewScreen</name>
    <message>
        <source>Waiting for a signature</source>
        <translation>Warten auf eine Unterschrift</translation>
    </message>
    <message>
        <source>Show calibration</source>
        <translation>Kalibrierung zeigen</translation>
    </message>
    <message>
        <source>Sign…</source>
        <translation>Unterschreiben…</translation>
    </message>
    <message>
        <source>Nothing waits for a signature.
A calibration comes here once its technician has signed it as performed.</source>
        <translation>Nichts wartet auf eine Unterschrift.
Eine Kalibrierung kommt hierher, sobald ihr Techniker sie als durchgeführt unterschrieben hat.</translation>
    </message>
    <message>
        <source>%1 to review, %2 to approve, %3 sent back; oldest first</source>
        <translation>%1 zu prüfen, %2 freizugeben, %3 zurückgegeben; die älteste zuerst</translation>
    </message>
</context>
<context>
    <name>spanwright::RoundDialog</name>
    <message>
        <source>Who walks it</source>
        <translation>Wer ihn geht</translation>
    </message>
    <message>
        <source>Due items</source>
        <translation>Fälliges</translation>
    </message>
    <message>
        <source>New round</source>
        <translation>Neuer Rundgang</translation>
    </message>
    <message>
        <source>Name</source>
        <translation>Name</translation>
    </message>
    <message>
        <source>Round of %1</source>
        <translation>Rundgang vom %1</translation>
    </message>
    <message>
        <source>Day</source>
        <translation>Tag</translation>
    </message>
    <message>
        <source>anybody</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>Narrow by channel, place or reason</source>
        <translation>Nach Kanal, Ort oder Grund einengen</translation>
    </message>
    <message>
        <source>Narrow by words</source>
        <translation>Nach Wörtern einengen</translation>
    </message>
    <message>
        <source>How soon</source>
        <translation>Wie bald</translation>
    </message>
    <message>
        <source>Due now</source>
        <translation>Jetzt fällig</translation>
    </message>
    <message>
        <source>Within %1 days</source>
        <translation>Binnen %1 Tagen</translation>
    </message>
    <message>
        <source>&amp;Name</source>
        <translation>&amp;Name</translation>
    </message>
    <message>
        <source>&amp;Day</source>
        <translation>&amp;Tag</translation>
    </message>
    <message>
        <source>&amp;For</source>
        <translation>&amp;Für</translation>
    </message>
    <message>
        <source>&amp;Tick all shown</source>
        <translation>Alle &amp;gezeigten anhaken</translation>
    </message>
    <message>
        <source>Make the round</source>
        <translation>Rundgang anlegen</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source>%1 ticked, %2 shown</source>
        <translation>%1 angehakt, %2 gezeigt</translation>
    </message>
    <message>
        <source>The round &quot;%1&quot; has %2.</source>
        <translation>Der Rundgang „%1“ hat %2.</translation>
    </message>
    <message>
        <source>1 stop</source>
        <translation>1 Halt</translation>
    </message>
    <message>
        <source>%1 stops</source>
        <translation>%1 Halte</translation>
    </message>
</context>
<context>
    <name>spanwright::RoundsModel</name>
    <message>
        <source>No.</source>
        <translation>Nr.</translation>
    </message>
    <message>
        <source>Round</source>
        <translation>Rundgang</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>closed</source>
        <translation>geschlossen</translation>
    </message>
    <message>
        <source>open</source>
        <translation>offen</translation>
    </message>
    <message>
        <source>Done</source>
        <translation>Maßnahme</translation>
    </message>
    <message>
        <source>%1 of %2</source>
        <translation>%1 von %2</translation>
    </message>
    <message>
        <source>For</source>
        <translation>Für</translation>
    </message>
    <message>
        <source>anybody</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>Made</source>
        <translation>Angelegt</translation>
    </message>
    <message>
        <source>%1 UTC</source>
        <translation>%1 UTC</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Warum</translation>
    </message>
</context>
<context>
    <name>spanwright::RoundsScreen</name>
    <message>
        <source>&amp;Close round</source>
        <translation>Rundgang &amp;schließen</translation>
    </message>
    <message>
        <source>What is recorded later counts for it no more</source>
        <translation>Was später erfasst wird, zählt nicht mehr dafür</translation>
    </message>
    <message>
        <source>Rounds</source>
        <translation>Rundgänge</translation>
    </message>
    <message>
        <source>There is no round yet. A round is a list of channels in the order one walks past them; make one from what is due.</source>
        <translation>Es gibt noch keinen Rundgang. Ein Rundgang ist eine Liste von Kanälen in der Reihenfolge, in der man an ihnen vorbeikommt; einen aus dem Fälligen anlegen.</translation>
    </message>
    <message>
        <source>Stops of the round</source>
        <translation>Halte des Rundgangs</translation>
    </message>
    <message>
        <source>%1, %2 open</source>
        <translation>%1, %2 offen</translation>
    </message>
    <message>
        <source>1 round</source>
        <translation>1 Rundgang</translation>
    </message>
    <message>
        <source>%1 rounds</source>
        <translation>%1 Rundgänge</translation>
    </message>
    <message>
        <source>%1: %2 of %3 done</source>
        <translation>%1: %2 von %3 erledigt</translation>
    </message>
    <message>
        <source>Close the round</source>
        <translation>Rundgang schließen</translation>
    </message>
    <message>
        <source>1 stop of &quot;%2&quot; is not done; a closed round stays as it is.</source>
        <translation>1 Halt von „%2“ ist nicht erledigt; ein geschlossener Rundgang bleibt, wie er ist.</translation>
    </message>
    <message>
        <source>%1 stops of &quot;%2&quot; are not done; a closed round stays as it is.</source>
        <translation>%1 Halte von „%2“ sind nicht erledigt; ein geschlossener Rundgang bleibt, wie er ist.</translation>
    </message>
    <message>
        <source>Close it</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Keep it open</source>
        <translation>Offen lassen</translation>
    </message>
    <message>
        <source>The round &quot;%1&quot; is closed.</source>
        <translation>Der Rundgang „%1“ ist geschlossen.</translation>
    </message>
    <message>
        <source>&amp;New round…</source>
        <translation>Neuer Run&amp;dgang…</translation>
    </message>
    <message>
        <source>&amp;Enter visit</source>
        <translation>&amp;Einsatz erfassen</translation>
    </message>
    <message>
        <source>Round &amp;sheet…</source>
        <translation>Rundgangs&amp;blatt…</translation>
    </message>
    <message>
        <source>What is still to do, to be printed and taken along</source>
        <translation>Was noch zu tun ist, zum Drucken und Mitnehmen</translation>
    </message>
    <message>
        <source>Certi&amp;ficates…</source>
        <translation>&amp;Kalibrierscheine…</translation>
    </message>
    <message>
        <source>Issue all that can be issued of this round</source>
        <translation>Alle ausstellen, die sich von diesem Rundgang ausstellen lassen</translation>
    </message>
    <message>
        <source>&amp;Labels…</source>
        <translation>E&amp;tiketten…</translation>
    </message>
    <message>
        <source>To stick on the channels of this round</source>
        <translation>Zum Aufkleben auf die Kanäle dieses Rundgangs</translation>
    </message>
</context>
<context>
    <name>spanwright::RoutinesModel</name>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>Due on</source>
        <translation>Fällig am</translation>
    </message>
    <message>
        <source>Plan</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Warum</translation>
    </message>
</context>
<context>
    <name>spanwright::Session</name>
    <message>
        <source>Opening the record</source>
        <translation>Akte wird geöffnet</translation>
    </message>
    <message>
        <source>Making the record</source>
        <translation>Akte wird angelegt</translation>
    </message>
    <message>
        <source>Looking at the histories</source>
        <translation>Historien werden angesehen</translation>
    </message>
    <message>
        <source>Importing</source>
        <translation>Wird importiert</translation>
    </message>
    <message>
        <source>Working out what is due</source>
        <translation>Fälligkeiten werden ermittelt</translation>
    </message>
    <message>
        <source>Looking at drift over the whole site</source>
        <translation>Drift am ganzen Standort wird ermittelt</translation>
    </message>
    <message>
        <source>Looking at the drift of %1</source>
        <translation>Drift von %1 wird ermittelt</translation>
    </message>
    <message>
        <source>Checking the whole file</source>
        <translation>Die ganze Datei wird geprüft</translation>
    </message>
    <message>
        <source>%1 What is shown may be wrong, and nothing is saved into it any more.</source>
        <translation>%1 Was gezeigt wird, kann falsch sein, und nichts wird mehr darin gespeichert.</translation>
    </message>
    <message>
        <source>Looking at the register</source>
        <translation>Das Verzeichnis wird gelesen</translation>
    </message>
</context>
<context>
    <name>spanwright::SettleTimer</name>
    <message>
        <source> s</source>
        <translation> s</translation>
    </message>
    <message>
        <source>Seconds to settle</source>
        <translation>Sekunden bis zum Stehen</translation>
    </message>
    <message>
        <source>Settling</source>
        <translation>Warten auf das Stehen</translation>
    </message>
    <message>
        <source>Settling, how far</source>
        <translation>Warten auf das Stehen, wie weit</translation>
    </message>
    <message>
        <source>Five time constants of the setup&apos;s filter</source>
        <translation>Fünf Zeitkonstanten des Filters der Parametrierung</translation>
    </message>
    <message>
        <source>The setup has no filter; this number is kept</source>
        <translation>Die Parametrierung hat kein Filter; diese Zahl bleibt erhalten</translation>
    </message>
    <message>
        <source>Settle: F9</source>
        <translation>Warten: F9</translation>
    </message>
    <message>
        <source>%1: %2 s</source>
        <translation>%1: %2 s</translation>
    </message>
    <message>
        <source>%1: settled</source>
        <translation>%1: steht</translation>
    </message>
</context>
<context>
    <name>spanwright::SetupForm</name>
    <message>
        <source>&amp;Kind</source>
        <translation>A&amp;rt</translation>
    </message>
    <message>
        <source>In &amp;force from</source>
        <translation>In &amp;Kraft ab</translation>
    </message>
    <message>
        <source>Filter [s]</source>
        <translation>Filter [s]</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
    <message>
        <source>&amp;Alarms</source>
        <translation>&amp;Alarme</translation>
    </message>
    <message>
        <source>low-low</source>
        <translation>tief-tief</translation>
    </message>
    <message>
        <source>low</source>
        <translation>tief</translation>
    </message>
    <message>
        <source>high</source>
        <translation>hoch</translation>
    </message>
    <message>
        <source>high-high</source>
        <translation>hoch-hoch</translation>
    </message>
    <message>
        <source>dead band</source>
        <translation>Hysterese</translation>
    </message>
    <message>
        <source>R&amp;emark</source>
        <translation>&amp;Bemerkung</translation>
    </message>
    <message>
        <source>Why, for instance commissioning</source>
        <translation>Warum, zum Beispiel Inbetriebnahme</translation>
    </message>
    <message>
        <source>What the setup means</source>
        <translation>Was die Parametrierung bedeutet</translation>
    </message>
    <message>
        <source>&amp;Signal</source>
        <translation>&amp;Signal</translation>
    </message>
    <message>
        <source>Co&amp;unts</source>
        <translation>Dig&amp;its</translation>
    </message>
    <message>
        <source>Converter [bit]</source>
        <translation>Wandler [bit]</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>Read as</source>
        <translation>Abgelesen in</translation>
    </message>
    <message>
        <source>engineering units</source>
        <translation>Einheiten</translation>
    </message>
    <message>
        <source>counts</source>
        <translation>Digits</translation>
    </message>
    <message>
        <source>Commanded as</source>
        <translation>Vorgegeben in</translation>
    </message>
    <message>
        <source>Transfer</source>
        <translation>Übertragung</translation>
    </message>
    <message>
        <source>linear</source>
        <translation>linear</translation>
    </message>
    <message>
        <source>square root</source>
        <translation>radizierend</translation>
    </message>
    <message>
        <source>Cut-off [%]</source>
        <translation>Schwelle [%]</translation>
    </message>
    <message>
        <source>of the square root; none</source>
        <translation>des Radizierens; keine</translation>
    </message>
    <message>
        <source>type %1</source>
        <translation>Typ %1</translation>
    </message>
    <message>
        <source>Thermocouple</source>
        <translation>Thermoelement</translation>
    </message>
    <message>
        <source>Element</source>
        <translation>Element</translation>
    </message>
    <message>
        <source>Wires</source>
        <translation>Leiter</translation>
    </message>
    <message>
        <source>Ran&amp;ge</source>
        <translation>Bereic&amp;h</translation>
    </message>
    <message>
        <source>Smallest step shown</source>
        <translation>Kleinste gezeigte Stufe</translation>
    </message>
    <message>
        <source>Arrives as whole tenths</source>
        <translation>Kommt in ganzen Zehnteln</translation>
    </message>
    <message>
        <source>Rated voltage [V]</source>
        <translation>Nennspannung [V]</translation>
    </message>
    <message>
        <source>On at or above [V]</source>
        <translation>Ein ab [V]</translation>
    </message>
    <message>
        <source>Off at or below [V]</source>
        <translation>Aus bis [V]</translation>
    </message>
    <message>
        <source>Claims IEC 61131-2</source>
        <translation>Nach IEC 61131-2</translation>
    </message>
    <message>
        <source>no</source>
        <translation>nein</translation>
    </message>
    <message>
        <source>type 1</source>
        <translation>Typ 1</translation>
    </message>
    <message>
        <source>type 2</source>
        <translation>Typ 2</translation>
    </message>
    <message>
        <source>type 3</source>
        <translation>Typ 3</translation>
    </message>
    <message>
        <source>Supply [V]</source>
        <translation>Versorgung [V]</translation>
    </message>
    <message>
        <source>On: drop at most [V]</source>
        <translation>Ein: Abfall höchstens [V]</translation>
    </message>
    <message>
        <source>Off: at most [V]</source>
        <translation>Aus: höchstens [V]</translation>
    </message>
    <message>
        <source>On loss of communication</source>
        <translation>Bei Ausfall der Kommunikation</translation>
    </message>
    <message>
        <source>holds</source>
        <translation>hält</translation>
    </message>
    <message>
        <source>goes to its minimum</source>
        <translation>geht auf das Minimum</translation>
    </message>
    <message>
        <source>goes off</source>
        <translation>geht aus</translation>
    </message>
    <message>
        <source>What it means is shown here as soon as it is complete.</source>
        <translation>Was sie bedeutet, steht hier, sobald sie vollständig ist.</translation>
    </message>
    <message>
        <source>not known: the digits typed count</source>
        <translation>nicht bekannt: die getippten Stellen zählen</translation>
    </message>
</context>
<context>
    <name>spanwright::SetupsModel</name>
    <message>
        <source>Setup</source>
        <translation>Version</translation>
    </message>
    <message>
        <source>%1, in force</source>
        <translation>%1, in Kraft</translation>
    </message>
    <message>
        <source>In force from</source>
        <translation>In Kraft ab</translation>
    </message>
    <message>
        <source>Configured as</source>
        <translation>Parametriert als</translation>
    </message>
    <message>
        <source>Why</source>
        <translation>Warum</translation>
    </message>
</context>
<context>
    <name>spanwright::SheetModel</name>
    <message>
        <source>unclear</source>
        <translation>unklar</translation>
    </message>
    <message>
        <source>skipped</source>
        <translation>ausgelassen</translation>
    </message>
    <message>
        <source>%1, %2: %3</source>
        <translation>%1, %2: %3</translation>
    </message>
    <message>
        <source>applied</source>
        <translation>Vorgabe</translation>
    </message>
    <message>
        <source>%1, %2, is not judged: %3</source>
        <translation>%1, %2, ist nicht bewertet: %3</translation>
    </message>
    <message>
        <source>empty</source>
        <translation>leer</translation>
    </message>
    <message>
        <source>Point</source>
        <translation>Messpunkt</translation>
    </message>
    <message>
        <source>Applied</source>
        <translation>Vorgabe</translation>
    </message>
    <message>
        <source>Expected</source>
        <translation>Sollanzeige</translation>
    </message>
    <message>
        <source>Last
left</source>
        <translation>Zuletzt
hinterl.</translation>
    </message>
    <message>
        <source>As found</source>
        <translation>Vorgefunden</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Abw.</translation>
    </message>
    <message>
        <source>Against
tolerance</source>
        <translation>Gegen
Toleranz</translation>
    </message>
    <message>
        <source>As left</source>
        <translation>Hinterlassen</translation>
    </message>
    <message>
        <source>%1, %2: %3 Enter keeps it.</source>
        <translation>%1, %2: %3 Enter behält ihn.</translation>
    </message>
    <message>
        <source>Values go into the applied, as-found and as-left columns.</source>
        <translation>Werte gehören in die Spalten Vorgabe, Vorgefunden und Hinterlassen.</translation>
    </message>
    <message>
        <source>Several columns cannot be pasted at once; copy one column of values.</source>
        <translation>Mehrere Spalten lassen sich nicht auf einmal einfügen; eine Spalte von Werten kopieren.</translation>
    </message>
    <message>
        <source>There is nothing to paste; copy a column of values first.</source>
        <translation>Es gibt nichts einzufügen; zuerst eine Spalte von Werten kopieren.</translation>
    </message>
    <message>
        <source>%1 values do not fit into the %2 lines from here down; begin further up, or copy fewer.</source>
        <translation>%1 Werte passen nicht in die %2 Zeilen von hier abwärts; weiter oben beginnen oder weniger kopieren.</translation>
    </message>
    <message>
        <source>Nothing can be typed at %1; paste the values above and below it by themselves.</source>
        <translation>Bei %1 lässt sich nichts eintippen; die Werte darüber und darunter für sich einfügen.</translation>
    </message>
    <message>
        <source>There is no value in the line above to repeat.</source>
        <translation>In der Zeile darüber steht kein Wert zum Wiederholen.</translation>
    </message>
</context>
<context>
    <name>spanwright::SheetView</name>
    <message>
        <source>Entry sheet</source>
        <translation>Erfassungsblatt</translation>
    </message>
    <message>
        <source>skip:</source>
        <translation>auslassen:</translation>
    </message>
    <message>
        <source>empty</source>
        <translation>leer</translation>
    </message>
    <message>
        <source>Taken back: %1 is now %2. Ctrl+Shift+Z does it again.</source>
        <translation>Zurückgenommen: %1 ist jetzt %2. Strg+Umschalt+Z wiederholt es.</translation>
    </message>
    <message>
        <source>There is nothing to take back.</source>
        <translation>Es gibt nichts zurückzunehmen.</translation>
    </message>
    <message>
        <source>Done again: %1 is now %2.</source>
        <translation>Wiederholt: %1 ist jetzt %2.</translation>
    </message>
    <message>
        <source>There is nothing to do again.</source>
        <translation>Es gibt nichts zu wiederholen.</translation>
    </message>
    <message>
        <source>The column is pasted; Ctrl+Z takes it back as a whole.</source>
        <translation>Die Spalte ist eingefügt; Strg+Z nimmt sie als Ganzes zurück.</translation>
    </message>
</context>
<context>
    <name>spanwright::SignDialog</name>
    <message>
        <source>Sign calibration %1</source>
        <translation>Kalibrierung %1 unterschreiben</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Calibration</source>
        <translation>Kalibrierung</translation>
    </message>
    <message>
        <source>%1, of the %2, %3, by %4</source>
        <translation>%1, %2, %3, von %4</translation>
    </message>
    <message>
        <source>As found</source>
        <translation>Vorgefunden</translation>
    </message>
    <message>
        <source>As left</source>
        <translation>Hinterlassen</translation>
    </message>
    <message>
        <source>Corrects</source>
        <translation>Berichtigt</translation>
    </message>
    <message>
        <source>calibration %1: %2</source>
        <translation>Kalibrierung %1: %2</translation>
    </message>
    <message>
        <source>Digest</source>
        <translation>Prüfsumme</translation>
    </message>
    <message>
        <source>%1… of its readings and standards</source>
        <translation>%1… über Ablesungen und Normale</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>Signatures</source>
        <translation>Unterschriften</translation>
    </message>
    <message>
        <source>Who signs</source>
        <translation>Wer unterschreibt</translation>
    </message>
    <message>
        <source>&amp;Who signs</source>
        <translation>&amp;Wer unterschreibt</translation>
    </message>
    <message>
        <source>Passphrase</source>
        <translation>Passphrase</translation>
    </message>
    <message>
        <source>&amp;Passphrase</source>
        <translation>&amp;Passphrase</translation>
    </message>
    <message>
        <source>&amp;Once more</source>
        <translation>&amp;Noch einmal</translation>
    </message>
    <message>
        <source>Passphrase once more</source>
        <translation>Passphrase noch einmal</translation>
    </message>
    <message>
        <source>First signature</source>
        <translation>Erste Unterschrift</translation>
    </message>
    <message>
        <source>Message</source>
        <translation>Meldung</translation>
    </message>
    <message>
        <source>Sign</source>
        <translation>Unterschreiben</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source>%1, %2 (%3)</source>
        <translation>%1, %2 (%3)</translation>
    </message>
    <message>
        <source>&amp;Reason</source>
        <translation>&amp;Grund</translation>
    </message>
    <message>
        <source>&amp;Remark</source>
        <translation>&amp;Bemerkung</translation>
    </message>
    <message>
        <source>Why; it is signed with it</source>
        <translation>Warum; es wird mit unterschrieben</translation>
    </message>
    <message>
        <source>May stay empty; it is signed with it</source>
        <translation>Darf leer bleiben; es wird mit unterschrieben</translation>
    </message>
    <message>
        <source>Reason, needed</source>
        <translation>Grund, nötig</translation>
    </message>
    <message>
        <source>Remark</source>
        <translation>Bemerkung</translation>
    </message>
    <message>
        <source>%1 has no key yet. Signing makes one under the passphrase typed here, at least %2 characters; nobody can read it back, and it is asked for at each signature.</source>
        <translation>%1 hat noch keinen Schlüssel. Beim Unterschreiben entsteht einer unter der hier eingegebenen Passphrase, mindestens %2 Zeichen; niemand kann sie auslesen, und sie wird bei jeder Unterschrift verlangt.</translation>
    </message>
    <message>
        <source>Choose what to sign.</source>
        <translation>Wählen, was zu unterschreiben ist.</translation>
    </message>
    <message>
        <source>Type the passphrase of %1.</source>
        <translation>Die Passphrase von %1 eingeben.</translation>
    </message>
    <message>
        <source>The two passphrases differ; type the same one twice.</source>
        <translation>Die beiden Passphrasen unterscheiden sich; zweimal dieselbe eingeben.</translation>
    </message>
    <message>
        <source>Calibration %1 of %2 is %3: signed by %4, %5 UTC.</source>
        <translation>Kalibrierung %1 von %2 ist %3: unterschrieben von %4, %5 UTC.</translation>
    </message>
    <message>
        <source>there is no calibration %1 in the record</source>
        <translation>in der Akte gibt es keine Kalibrierung %1</translation>
    </message>
    <message>
        <source>choose one that is listed</source>
        <translation>eine aus der Liste wählen</translation>
    </message>
    <message>
        <source>Looks odd</source>
        <translation>Sieht seltsam aus</translation>
    </message>
</context>
<context>
    <name>spanwright::SignerFields</name>
    <message>
        <source>%1, %2 (%3)</source>
        <translation>%1, %2 (%3)</translation>
    </message>
    <message>
        <source>Who signs</source>
        <translation>Wer unterschreibt</translation>
    </message>
    <message>
        <source>Passphrase</source>
        <translation>Passphrase</translation>
    </message>
    <message>
        <source>Passphrase once more</source>
        <translation>Passphrase noch einmal</translation>
    </message>
    <message>
        <source>&amp;Once more</source>
        <translation>&amp;Noch einmal</translation>
    </message>
    <message>
        <source>&amp;Who signs</source>
        <translation>&amp;Wer unterschreibt</translation>
    </message>
    <message>
        <source>&amp;Passphrase</source>
        <translation>&amp;Passphrase</translation>
    </message>
    <message>
        <source>First signature</source>
        <translation>Erste Unterschrift</translation>
    </message>
    <message>
        <source>%1 has no key yet. Signing makes one under the passphrase typed here, at least %2 characters; nobody can read it back, and it is asked for at each signature.</source>
        <translation>%1 hat noch keinen Schlüssel. Beim Unterschreiben entsteht einer unter der hier eingegebenen Passphrase, mindestens %2 Zeichen; niemand kann sie auslesen, und sie wird bei jeder Unterschrift verlangt.</translation>
    </message>
    <message>
        <source>Choose who signs.</source>
        <translation>Wählen, wer unterschreibt.</translation>
    </message>
    <message>
        <source>Type the passphrase of %1.</source>
        <translation>Die Passphrase von %1 eingeben.</translation>
    </message>
    <message>
        <source>The two passphrases differ; type the same one twice.</source>
        <translation>Die beiden Passphrasen unterscheiden sich; zweimal dieselbe eingeben.</translation>
    </message>
</context>
<context>
    <name>spanwright::SiteScreen</name>
    <message>
        <source>Places and channels</source>
        <translation>Orte und Kanäle</translation>
    </message>
    <message>
        <source>Most pressing</source>
        <translation>Am dringendsten</translation>
    </message>
    <message>
        <source>Drifting out of tolerance</source>
        <translation>Driftet aus der Toleranz</translation>
    </message>
    <message>
        <source>%1 %2, show them</source>
        <translation>%1 %2, anzeigen</translation>
    </message>
    <message>
        <source>Show what is in this state in the due list</source>
        <translation>Zeigt in den Fälligkeiten, was diesen Status hat</translation>
    </message>
    <message>
        <source>No 95 % band leaves its tolerance within ten years.</source>
        <translation>Kein 95-%-Band verlässt seine Toleranz binnen zehn Jahren.</translation>
    </message>
    <message>
        <source>Looking at the histories …</source>
        <translation>Historien werden angesehen …</translation>
    </message>
    <message>
        <source>Go on with the unfinished visit to %1 (%2, begun %3)</source>
        <translation>Angefangenen Einsatz an %1 fortsetzen (%2, begonnen %3)</translation>
    </message>
    <message>
        <source>Find by tag, serial number, place or words</source>
        <translation>Nach Kennzeichen, Seriennummer, Ort oder Wörtern suchen</translation>
    </message>
    <message>
        <source>Find a channel</source>
        <translation>Kanal suchen</translation>
    </message>
    <message>
        <source>Channels found</source>
        <translation>Gefundene Kanäle</translation>
    </message>
    <message>
        <source>1 channel found</source>
        <translation>1 Kanal gefunden</translation>
    </message>
    <message>
        <source>%1 channels found</source>
        <translation>%1 Kanäle gefunden</translation>
    </message>
    <message>
        <source>%1 channels found; the first %2 are shown, type more to tell them apart</source>
        <translation>%1 Kanäle gefunden; die ersten %2 sind gezeigt, mehr Zeichen grenzen sie ein</translation>
    </message>
    <message>
        <source>Add or change</source>
        <translation>Anlegen oder ändern</translation>
    </message>
</context>
<context>
    <name>spanwright::SiteTreeModel</name>
    <message>
        <source>retired</source>
        <translation>stillgelegt</translation>
    </message>
    <message>
        <source>no routine</source>
        <translation>keine Routine</translation>
    </message>
    <message>
        <source>%1 × %2</source>
        <translation>%1 × %2</translation>
    </message>
    <message>
        <source>1 channel</source>
        <translation>1 Kanal</translation>
    </message>
    <message>
        <source>%1 channels</source>
        <translation>%1 Kanäle</translation>
    </message>
    <message>
        <source>Place, channel</source>
        <translation>Ort, Kanal</translation>
    </message>
    <message>
        <source>What it measures</source>
        <translation>Was er misst</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>Due on</source>
        <translation>Fällig am</translation>
    </message>
</context>
<context>
    <name>spanwright::StandardCertificateDialog</name>
    <message>
        <source>Entered by</source>
        <translation>Erfasst von</translation>
    </message>
    <message>
        <source>New certificate of standard %1</source>
        <translation>Neuer Kalibrierschein des Normals %1</translation>
    </message>
    <message>
        <source>&amp;Number</source>
        <translation>N&amp;ummer</translation>
    </message>
    <message>
        <source>I&amp;ssuer</source>
        <translation>Au&amp;ssteller</translation>
    </message>
    <message>
        <source>&amp;Traceability</source>
        <translation>&amp;Rückführung</translation>
    </message>
    <message>
        <source>&amp;Coverage factor k</source>
        <translation>Erweiterungsfaktor &amp;k</translation>
    </message>
    <message>
        <source>Iss&amp;ued</source>
        <translation>Ausgeste&amp;llt</translation>
    </message>
    <message>
        <source>Valid &amp;from</source>
        <translation>Gültig &amp;von</translation>
    </message>
    <message>
        <source>Valid unti&amp;l</source>
        <translation>Gültig &amp;bis</translation>
    </message>
    <message>
        <source>&amp;Entered by</source>
        <translation>Erfasst v&amp;on</translation>
    </message>
    <message>
        <source>For instance: to the SI through ...</source>
        <translation>Zum Beispiel: auf das SI über ...</translation>
    </message>
    <message>
        <source>Points: type them, or copy the certificate&apos;s table and press Ctrl+V. An empty unit or resolution is that of the line above. Errors are indication minus true value; uncertainties are expanded with k.</source>
        <translation>Punkte: eingeben, oder die Tabelle des Kalibrierscheins kopieren und Strg+V drücken. Leere Einheit oder Auflösung ist die der Zeile darüber. Messabweichungen sind Anzeige minus wahrer Wert; Messunsicherheiten sind mit k erweitert.</translation>
    </message>
    <message>
        <source>Add certificate</source>
        <translation>Kalibrierschein hinzufügen</translation>
    </message>
    <message>
        <source>Leave</source>
        <translation>Verlassen</translation>
    </message>
    <message>
        <source>Line %1: %2</source>
        <translation>Zeile %1: %2</translation>
    </message>
    <message>
        <source>1 more is wrong.</source>
        <translation>1 weitere stimmt nicht.</translation>
    </message>
    <message>
        <source>%1 more are wrong.</source>
        <translation>%1 weitere stimmen nicht.</translation>
    </message>
    <message>
        <source>Certificate %1 of standard %2 is in the record.</source>
        <translation>Kalibrierschein %1 des Normals %2 ist in der Akte.</translation>
    </message>
</context>
<context>
    <name>spanwright::StandardCertificatesModel</name>
    <message>
        <source>%1 to %2 %3 (%4)</source>
        <translation>%1 bis %2 %3 (%4)</translation>
    </message>
    <message>
        <source>1 point</source>
        <translation>1 Punkt</translation>
    </message>
    <message>
        <source>%1 points</source>
        <translation>%1 Punkte</translation>
    </message>
    <message>
        <source>Number</source>
        <translation>Nummer</translation>
    </message>
    <message>
        <source>Valid from</source>
        <translation>Gültig ab</translation>
    </message>
    <message>
        <source>Until</source>
        <translation>Bis</translation>
    </message>
    <message>
        <source>Issued</source>
        <translation>Ausgestellt</translation>
    </message>
    <message>
        <source>k</source>
        <translation>k</translation>
    </message>
    <message>
        <source>Ranges</source>
        <translation>Bereiche</translation>
    </message>
    <message>
        <source>By</source>
        <translation>Von</translation>
    </message>
</context>
<context>
    <name>spanwright::StandardEventsModel</name>
    <message>
        <source>Decided</source>
        <translation>Entschieden</translation>
    </message>
    <message>
        <source>From</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>To</source>
        <translation>Bis</translation>
    </message>
    <message>
        <source>By</source>
        <translation>Von</translation>
    </message>
    <message>
        <source>Signed</source>
        <translation>Unterschrieben</translation>
    </message>
    <message>
        <source>%1 UTC</source>
        <translation>%1 UTC</translation>
    </message>
    <message>
        <source>Reason</source>
        <translation>Grund</translation>
    </message>
</context>
<context>
    <name>spanwright::StandardsModel</name>
    <message>
        <source>Standard</source>
        <translation>Normal</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>Certificate runs</source>
        <translation>Kalibrierschein läuft</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Last day</source>
        <translation>Letzter Tag</translation>
    </message>
    <message>
        <source>Certificate</source>
        <translation>Kalibrierschein</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Wo</translation>
    </message>
</context>
<context>
    <name>spanwright::StandardsScreen</name>
    <message>
        <source>&amp;Decide…</source>
        <translation>Ent&amp;scheiden…</translation>
    </message>
    <message>
        <source>&amp;Add certificate…</source>
        <translation>Kalibrierschein hin&amp;zufügen…</translation>
    </message>
    <message>
        <source>Fi&amp;les…</source>
        <translation>&amp;Dateien…</translation>
    </message>
    <message>
        <source>Take it out of service, bring it back, or allow its use; signed</source>
        <translation>Außer Betrieb nehmen, zurückholen oder die Verwendung erlauben; unterschrieben</translation>
    </message>
    <message>
        <source>Files kept with the certificate chosen</source>
        <translation>Dateien zum gewählten Kalibrierschein</translation>
    </message>
    <message>
        <source>Standards</source>
        <translation>Normale</translation>
    </message>
    <message>
        <source>Certificates of the standard</source>
        <translation>Kalibrierscheine des Normals</translation>
    </message>
    <message>
        <source>Decisions about the standard</source>
        <translation>Entscheidungen über das Normal</translation>
    </message>
    <message>
        <source>Nothing was decided about it.</source>
        <translation>Darüber wurde nichts entschieden.</translation>
    </message>
    <message>
        <source>Value of the chart</source>
        <translation>Wert der Regelkarte</translation>
    </message>
    <message>
        <source>Control chart a&amp;t</source>
        <translation>Regelkar&amp;te bei</translation>
    </message>
    <message>
        <source>Certificates</source>
        <translation>Kalibrierscheine</translation>
    </message>
    <message>
        <source>What was decided</source>
        <translation>Was entschieden wurde</translation>
    </message>
    <message>
        <source>%1; %2 not to be used today</source>
        <translation>%1; %2 heute nicht zu verwenden</translation>
    </message>
    <message>
        <source>1 standard</source>
        <translation>1 Normal</translation>
    </message>
    <message>
        <source>%1 standards</source>
        <translation>%1 Normale</translation>
    </message>
    <message>
        <source>The register has no standards.</source>
        <translation>Das Verzeichnis hat keine Normale.</translation>
    </message>
    <message>
        <source>%1, beyond</source>
        <translation>%1, außerhalb</translation>
    </message>
    <message>
        <source>There is no certificate to draw yet.</source>
        <translation>Es gibt noch keinen Kalibrierschein zu zeichnen.</translation>
    </message>
    <message>
        <source>What did it r&amp;each…</source>
        <translation>Was ist b&amp;etroffen…</translation>
    </message>
    <message>
        <source>The calibrations that rest on it, when it was found out of tolerance</source>
        <translation>Die Kalibrierungen, die auf ihm beruhen, wenn es außerhalb der Toleranz gefunden wurde</translation>
    </message>
</context>
<context>
    <name>spanwright::StartScreen</name>
    <message>
        <source>What would you like to do?</source>
        <translation>Was möchten Sie tun?</translation>
    </message>
    <message>
        <source>Open a record</source>
        <translation>Akte öffnen</translation>
    </message>
    <message>
        <source>A site&apos;s record file on a disk of this machine</source>
        <translation>Die Aktendatei eines Standorts auf diesem Rechner</translation>
    </message>
    <message>
        <source>Try the sample record</source>
        <translation>Beispielakte ausprobieren</translation>
    </message>
    <message>
        <source>Your own copy of an invented creamery with years of history</source>
        <translation>Die eigene Kopie einer erfundenen Molkerei mit Jahren an Historie</translation>
    </message>
    <message>
        <source>Recent records</source>
        <translation>Zuletzt geöffnete Akten</translation>
    </message>
    <message>
        <source>None yet. A record you open is listed here.</source>
        <translation>Noch keine. Eine geöffnete Akte steht dann hier.</translation>
    </message>
    <message>
        <source>As found, as left, and what it means: the calibration record of a site&apos;s measuring channels, each proof tied to the setup it was made under.</source>
        <translation>Wie vorgefunden, wie hinterlassen und was es bedeutet: die Kalibrierakte der Messkanäle eines Standorts, jeder Nachweis gebunden an die Parametrierung, unter der er entstand.</translation>
    </message>
    <message>
        <source>%1 (no longer there)
%2</source>
        <translation>%1 (nicht mehr vorhanden)
%2</translation>
    </message>
    <message>
        <source>Describe a new site</source>
        <translation>Neuen Standort beschreiben</translation>
    </message>
    <message>
        <source>By form: its name and first person; the rest follows in the window</source>
        <translation>Im Formular: Name und erste Person; alles Weitere folgt im Fenster</translation>
    </message>
    <message>
        <source>Make a record from a site file</source>
        <translation>Akte aus einer Standortdatei anlegen</translation>
    </message>
    <message>
        <source>That names places, channels, plans and standards</source>
        <translation>Die Orte, Kanäle, Pläne und Normale nennt</translation>
    </message>
</context>
<context>
    <name>spanwright::StopsModel</name>
    <message>
        <source>Stop</source>
        <translation>Halt</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Status</translation>
    </message>
    <message>
        <source>done</source>
        <translation>erledigt</translation>
    </message>
    <message>
        <source>to do</source>
        <translation>zu tun</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>Place</source>
        <translation>Ort</translation>
    </message>
    <message>
        <source>Title</source>
        <translation>Titel</translation>
    </message>
    <message>
        <source>Calibration</source>
        <translation>Kalibrierung</translation>
    </message>
</context>
<context>
    <name>spanwright::TodayModel</name>
    <message>
        <source>Drafts to finish</source>
        <translation>Entwürfe fertigzustellen</translation>
    </message>
    <message>
        <source>begun %1</source>
        <translation>begonnen %1</translation>
    </message>
    <message>
        <source>1 value typed</source>
        <translation>1 Wert eingegeben</translation>
    </message>
    <message>
        <source>%1 values typed</source>
        <translation>%1 Werte eingegeben</translation>
    </message>
    <message>
        <source>Sent back</source>
        <translation>Zurückgegeben</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>performed %1</source>
        <translation>durchgeführt %1</translation>
    </message>
    <message>
        <source>by %1; as found %2, as left %3</source>
        <translation>von %1; wie vorgefunden %2, wie hinterlassen %3</translation>
    </message>
    <message>
        <source>To review</source>
        <translation>Zu prüfen</translation>
    </message>
    <message>
        <source>To approve</source>
        <translation>Freizugeben</translation>
    </message>
    <message>
        <source>due %1</source>
        <translation>fällig %1</translation>
    </message>
    <message>
        <source>due now</source>
        <translation>jetzt fällig</translation>
    </message>
    <message>
        <source>1 more</source>
        <translation>1 weitere</translation>
    </message>
    <message>
        <source>%1 more</source>
        <translation>%1 weitere</translation>
    </message>
    <message>
        <source>in the due list</source>
        <translation>in den Fälligkeiten</translation>
    </message>
    <message>
        <source>Standards running out or out of use</source>
        <translation>Normale, die ablaufen oder nicht verwendbar sind</translation>
    </message>
    <message>
        <source>%1: being worked out</source>
        <translation>%1: wird ermittelt</translation>
    </message>
    <message>
        <source>%1: none</source>
        <translation>%1: nichts</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Where</source>
        <translation>Wo</translation>
    </message>
    <message>
        <source>When</source>
        <translation>Wann</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
    <message>
        <source>Rounds to walk</source>
        <translation>Rundgänge zu gehen</translation>
    </message>
    <message>
        <source>%1 of %2 done</source>
        <translation>%1 von %2 erledigt</translation>
    </message>
    <message>
        <source>next %1; F8 goes there</source>
        <translation>als Nächstes %1; F8 geht dorthin</translation>
    </message>
    <message>
        <source>every stop is done; the round can be closed</source>
        <translation>jeder Halt ist erledigt; der Rundgang kann geschlossen werden</translation>
    </message>
    <message>
        <source>To sign</source>
        <translation>Zu unterschreiben</translation>
    </message>
    <message>
        <source>Steps nobody recorded</source>
        <translation>Sprünge, die niemand vermerkt hat</translation>
    </message>
    <message>
        <source>by %1</source>
        <translation>bis %1</translation>
    </message>
    <message>
        <source>on the page of drift</source>
        <translation>auf der Seite der Drift</translation>
    </message>
</context>
<context>
    <name>spanwright::TodayScreen</name>
    <message>
        <source>Who works</source>
        <translation>Wer arbeitet</translation>
    </message>
    <message>
        <source>Who you are: what concerns you is told here, and a visit begins with your name</source>
        <translation>Wer Sie sind: was Sie betrifft, steht hier, und ein Einsatz beginnt mit Ihrem Namen</translation>
    </message>
    <message>
        <source>F&amp;or</source>
        <translation>F&amp;ür</translation>
    </message>
    <message>
        <source>What needs doing today</source>
        <translation>Was heute zu tun ist</translation>
    </message>
    <message>
        <source>everybody</source>
        <translation>alle</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>What needs doing on %1</source>
        <translation>Was am %1 zu tun ist</translation>
    </message>
</context>
<context>
    <name>spanwright::TraceModel</name>
    <message>
        <source>%1 to %2</source>
        <translation>%1 bis %2</translation>
    </message>
    <message>
        <source>%1 %</source>
        <translation>%1 %</translation>
    </message>
    <message>
        <source>Phase</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Point</source>
        <translation>Messpunkt</translation>
    </message>
    <message>
        <source>Applied</source>
        <translation>Vorgabe</translation>
    </message>
    <message>
        <source>Expected</source>
        <translation>Sollanzeige</translation>
    </message>
    <message>
        <source>Read</source>
        <translation>Ablesung</translation>
    </message>
    <message>
        <source>Error</source>
        <translation>Messabweichung</translation>
    </message>
    <message>
        <source>Limits</source>
        <translation>Grenzen</translation>
    </message>
    <message>
        <source>Used</source>
        <translation>Genutzt</translation>
    </message>
    <message>
        <source>U</source>
        <translation>U</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Bewertung</translation>
    </message>
    <message>
        <source>skipped</source>
        <translation>übersprungen</translation>
    </message>
    <message>
        <source>Left before</source>
        <translation>Davor hinterlassen</translation>
    </message>
    <message>
        <source>Since then</source>
        <translation>Seither</translation>
    </message>
    <message>
        <source>Recomputed</source>
        <translation>Nachgerechnet</translation>
    </message>
    <message>
        <source>the same</source>
        <translation>gleich</translation>
    </message>
    <message>
        <source>differs</source>
        <translation>weicht ab</translation>
    </message>
</context>
<context>
    <name>spanwright::TraceScreen</name>
    <message>
        <source>Readings with what they rest on</source>
        <translation>Ablesungen und worauf sie beruhen</translation>
    </message>
    <message>
        <source>Agreement with a recomputation</source>
        <translation>Übereinstimmung mit einer Nachrechnung</translation>
    </message>
    <message>
        <source>Visit &amp;before</source>
        <translation>Einsatz &amp;davor</translation>
    </message>
    <message>
        <source>On its &amp;channel</source>
        <translation>Beim &amp;Kanal</translation>
    </message>
    <message>
        <source>Cer&amp;tificate</source>
        <translation>Kalibrier&amp;schein</translation>
    </message>
    <message>
        <source>&amp;Sign…</source>
        <translation>&amp;Unterschreiben…</translation>
    </message>
    <message>
        <source>Where the numbers of the chosen reading come from</source>
        <translation>Woher die Zahlen der gewählten Ablesung kommen</translation>
    </message>
    <message>
        <source>What the calibration as a whole rests on</source>
        <translation>Worauf die Kalibrierung als Ganzes beruht</translation>
    </message>
    <message>
        <source>Where the numbers of the chosen rea&amp;ding come from</source>
        <translation>W&amp;oher die Zahlen der gewählten Ablesung kommen</translation>
    </message>
    <message>
        <source>What the calibration as a wh&amp;ole rests on</source>
        <translation>Worauf die Kalibrierung als Gan&amp;zes beruht</translation>
    </message>
    <message>
        <source>Calibration %1 of %2, %3 (%4): as found %5, as left %6</source>
        <translation>Kalibrierung %1 von %2, %3 (%4): vorgefunden %5, hinterlassen %6</translation>
    </message>
    <message>
        <source>No link is missing.</source>
        <translation>Kein Glied fehlt.</translation>
    </message>
    <message>
        <source>1 link is missing.</source>
        <translation>1 Glied fehlt.</translation>
    </message>
    <message>
        <source>%1 links are missing.</source>
        <translation>%1 Glieder fehlen.</translation>
    </message>
</context>
<context>
    <name>spanwright::VisitEntry</name>
    <message>
        <source>skip:</source>
        <translation>auslassen:</translation>
    </message>
    <message>
        <source>Another setup, sensor or plan applied at that moment; finish or leave this visit first.</source>
        <translation>Zu diesem Zeitpunkt galt eine andere Parametrierung, ein anderer Sensor oder Plan; erst diesen Einsatz abschließen oder verlassen.</translation>
    </message>
    <message>
        <source>left by %1 on %2</source>
        <translation>hinterlassen von %1 am %2</translation>
    </message>
    <message>
        <source>The draft is not on disk yet: %1</source>
        <translation>Der Entwurf ist noch nicht gespeichert: %1</translation>
    </message>
</context>
<context>
    <name>spanwright::VisitHeader</name>
    <message>
        <source>&quot;%1&quot; is not a number; it is not kept.</source>
        <translation>„%1“ ist keine Zahl; es wird nicht übernommen.</translation>
    </message>
    <message>
        <source>Visit</source>
        <translation>Einsatz</translation>
    </message>
    <message>
        <source>Channel</source>
        <translation>Kanal</translation>
    </message>
    <message>
        <source>Subject</source>
        <translation>Gegenstand</translation>
    </message>
    <message>
        <source>When</source>
        <translation>Wann</translation>
    </message>
    <message>
        <source>Person</source>
        <translation>Person</translation>
    </message>
    <message>
        <source>Under test</source>
        <translation>Kalibriergegenstand</translation>
    </message>
    <message>
        <source>Setup</source>
        <translation>Parametrierung</translation>
    </message>
    <message>
        <source>Sensor</source>
        <translation>Sensor</translation>
    </message>
    <message>
        <source>Plan</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>Tolerance</source>
        <translation>Toleranz</translation>
    </message>
    <message>
        <source>Procedure</source>
        <translation>Verfahren</translation>
    </message>
    <message>
        <source>Standards and conditions</source>
        <translation>Normale und Umgebung</translation>
    </message>
    <message>
        <source>Standards used</source>
        <translation>Verwendete Normale</translation>
    </message>
    <message>
        <source>S&amp;tandards used: Space ticks one</source>
        <translation>Verwende&amp;te Normale: Leertaste hakt an</translation>
    </message>
    <message>
        <source>Ambient temperature in °C</source>
        <translation>Umgebungstemperatur in °C</translation>
    </message>
    <message>
        <source>% rel. humidity</source>
        <translation>% r. F.</translation>
    </message>
    <message>
        <source>Relative humidity in percent</source>
        <translation>Relative Feuchte in Prozent</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
    <message>
        <source>Note on the conditions</source>
        <translation>Notiz zur Umgebung</translation>
    </message>
    <message>
        <source>none: mV are emf referred to 0 °C</source>
        <translation>keine: mV sind auf 0 °C bezogen</translation>
    </message>
    <message>
        <source>Reference junction in °C</source>
        <translation>Vergleichsstelle in °C</translation>
    </message>
    <message>
        <source>Reference &amp;junction, °C</source>
        <translation>Vergle&amp;ichsstelle, °C</translation>
    </message>
    <message>
        <source>Before the first value</source>
        <translation>Vor dem ersten Wert</translation>
    </message>
    <message>
        <source>Cautions</source>
        <translation>Sicherheitshinweise</translation>
    </message>
    <message>
        <source>Read, and each of these is in &amp;place</source>
        <translation>Gelesen, und jeder &amp;Punkt ist erfüllt</translation>
    </message>
    <message>
        <source>Must be ticked before values can be typed</source>
        <translation>Muss angehakt sein, bevor Werte eingegeben werden können</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>none fitted</source>
        <translation>keiner eingebaut</translation>
    </message>
    <message>
        <source>%1 rev %2, %3</source>
        <translation>%1 Rev. %2, %3</translation>
    </message>
    <message>
        <source>%1; adjust above %2 % of it</source>
        <translation>%1; justieren ab %2 % davon</translation>
    </message>
    <message>
        <source>• The site&apos;s own procedures and the responsible people decide whether work may begin; this program does not know that it is safe.</source>
        <translation>• Die Verfahren des Standorts und die verantwortlichen Personen entscheiden, ob die Arbeit beginnen darf; dieses Programm weiß nicht, ob sie sicher ist.</translation>
    </message>
    <message>
        <source>%1, valid until %2</source>
        <translation>%1, gültig bis %2</translation>
    </message>
    <message>
        <source>%1: %2, certificate %3, valid until %4</source>
        <translation>%1: %2, Kalibrierschein %3, gültig bis %4</translation>
    </message>
    <message>
        <source>No standard with a certificate valid on %1 covers this sheet.</source>
        <translation>Kein Normal mit einem am %1 gültigen Kalibrierschein deckt dieses Blatt ab.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is not a temperature; it is not kept.</source>
        <translation>„%1“ ist keine Temperatur; es wird nicht übernommen.</translation>
    </message>
    <message>
        <source>%1 channels match &quot;%2&quot;; type more of the tag.</source>
        <translation>Auf „%2“ passen %1 Kanäle; mehr vom Kennzeichen eingeben.</translation>
    </message>
    <message>
        <source>No channel in use matches &quot;%1&quot;.</source>
        <translation>Auf „%1“ passt kein Kanal, der in Gebrauch ist.</translation>
    </message>
</context>
<context>
    <name>spanwright::VisitScreen</name>
    <message>
        <source>The cautions stay confirmed: values are typed. Discard the draft to begin again.</source>
        <translation>Die Sicherheitshinweise bleiben bestätigt: es sind Werte eingegeben. Für einen Neubeginn den Entwurf verwerfen.</translation>
    </message>
    <message>
        <source>Draft on disk %1</source>
        <translation>Entwurf gespeichert %1</translation>
    </message>
    <message>
        <source>Confirm the cautions first: press Space on the box at the top right.</source>
        <translation>Erst die Sicherheitshinweise bestätigen: Leertaste auf dem Kästchen oben rechts.</translation>
    </message>
    <message>
        <source>Values go into the applied, as-found and as-left columns.</source>
        <translation>Werte gehören in die Spalten Vorgabe, Vorgefunden und Hinterlassen.</translation>
    </message>
    <message>
        <source>About the cell</source>
        <translation>Zum Feld</translation>
    </message>
    <message>
        <source>Figures of the run</source>
        <translation>Kennwerte der Aufnahme</translation>
    </message>
    <message>
        <source>What keeps the visit from being stored</source>
        <translation>Was das Speichern des Einsatzes verhindert</translation>
    </message>
    <message>
        <source>not said</source>
        <translation>keine Angabe</translation>
    </message>
    <message>
        <source>adjusted</source>
        <translation>justiert</translation>
    </message>
    <message>
        <source>repaired</source>
        <translation>repariert</translation>
    </message>
    <message>
        <source>nothing changed</source>
        <translation>nichts verändert</translation>
    </message>
    <message>
        <source>What was done to it</source>
        <translation>Was daran gemacht wurde</translation>
    </message>
    <message>
        <source>What was adjusted or repaired</source>
        <translation>Was justiert oder repariert wurde</translation>
    </message>
    <message>
        <source>Remarks</source>
        <translation>Bemerkungen</translation>
    </message>
    <message>
        <source>Leave, keep draft</source>
        <translation>Verlassen, Entwurf behalten</translation>
    </message>
    <message>
        <source>Discard draft</source>
        <translation>Entwurf verwerfen</translation>
    </message>
    <message>
        <source>Finish visit</source>
        <translation>Einsatz abschließen</translation>
    </message>
    <message>
        <source>Check the whole sheet and store the visit (Ctrl+Enter)</source>
        <translation>Das ganze Blatt prüfen und den Einsatz speichern (Strg+Enter)</translation>
    </message>
    <message>
        <source>No channel is chosen yet.</source>
        <translation>Noch ist kein Kanal gewählt.</translation>
    </message>
    <message>
        <source>Draft of %1</source>
        <translation>Entwurf von %1</translation>
    </message>
    <message>
        <source>No standard is ticked yet: Alt+T goes to their list, Space ticks one.</source>
        <translation>Noch ist kein Normal angehakt: Alt+T geht zur Liste, Leertaste hakt an.</translation>
    </message>
    <message>
        <source>Then confirm the cautions.</source>
        <translation>Dann die Sicherheitshinweise bestätigen.</translation>
    </message>
    <message>
        <source>Digits and Enter, value after value. Units may be typed; Ctrl+K skips a point.</source>
        <translation>Ziffern und Enter, Wert für Wert. Einheiten dürfen dabei stehen; Strg+K lässt einen Messpunkt aus.</translation>
    </message>
    <message>
        <source>Confirm the cautions, then type: digits and Enter, value after value.</source>
        <translation>Die Sicherheitshinweise bestätigen, dann eingeben: Ziffern und Enter, Wert für Wert.</translation>
    </message>
    <message>
        <source>That was the last value. Ctrl+Enter finishes the visit.</source>
        <translation>Das war der letzte Wert. Strg+Enter schließt den Einsatz ab.</translation>
    </message>
    <message>
        <source> and %1 more</source>
        <translation> und %1 weitere</translation>
    </message>
    <message>
        <source>Still empty: %1. Type them, or Ctrl+K says why one is skipped.</source>
        <translation>Noch leer: %1. Eingeben, oder mit Strg+K sagen, warum einer ausgelassen wird.</translation>
    </message>
    <message>
        <source>&amp;Done (needed)</source>
        <translation>&amp;Durchgeführt (nötig)</translation>
    </message>
    <message>
        <source>&amp;Done</source>
        <translation>&amp;Durchgeführt</translation>
    </message>
    <message>
        <source>as-left values are typed but not what was done</source>
        <translation>Werte wie hinterlassen sind eingegeben, aber nicht, was gemacht wurde</translation>
    </message>
    <message>
        <source>choose below what was done, and say what was adjusted or repaired</source>
        <translation>unten wählen, was gemacht wurde, und angeben, was justiert oder repariert wurde</translation>
    </message>
    <message>
        <source>The visit to %1 is stored: as found %2, as left %3.</source>
        <translation>Der Einsatz an %1 ist gespeichert: wie vorgefunden %2, wie hinterlassen %3.</translation>
    </message>
    <message>
        <source>One thing keeps the visit from being stored; nothing typed is lost. Enter goes there.</source>
        <translation>Eines verhindert das Speichern des Einsatzes; nichts Eingegebenes geht verloren. Enter führt hin.</translation>
    </message>
    <message>
        <source>%1 things keep the visit from being stored; nothing typed is lost. Enter goes to each.</source>
        <translation>%1 Dinge verhindern das Speichern des Einsatzes; nichts Eingegebenes geht verloren. Enter führt zu jedem.</translation>
    </message>
    <message>
        <source>Errors of this visit</source>
        <translation>Messabweichungen dieses Einsatzes</translation>
    </message>
    <message>
        <source>Values are not on disk</source>
        <translation>Werte sind nicht gespeichert</translation>
    </message>
    <message>
        <source>1 value of the visit to %2 is not on disk and will be lost.</source>
        <translation>1 Wert des Einsatzes an %2 ist nicht gespeichert und geht verloren.</translation>
    </message>
    <message>
        <source>%1 values of the visit to %2 are not on disk and will be lost.</source>
        <translation>%1 Werte des Einsatzes an %2 sind nicht gespeichert und gehen verloren.</translation>
    </message>
    <message>
        <source>Stay, make room on the disk, and they are written with the next value.</source>
        <translation>Bleiben, auf dem Datenträger Platz schaffen, dann werden sie mit dem nächsten Wert gespeichert.</translation>
    </message>
    <message>
        <source>Leave and lose them</source>
        <translation>Verlassen und verlieren</translation>
    </message>
    <message>
        <source>Stay</source>
        <translation>Bleiben</translation>
    </message>
    <message>
        <source>Discard the draft</source>
        <translation>Entwurf verwerfen</translation>
    </message>
    <message>
        <source>1 value of %2 will be lost.</source>
        <translation>1 Wert von %2 geht verloren.</translation>
    </message>
    <message>
        <source>%1 values of %2 will be lost.</source>
        <translation>%1 Werte von %2 gehen verloren.</translation>
    </message>
    <message>
        <source>Discard</source>
        <translation>Verwerfen</translation>
    </message>
    <message>
        <source>Keep</source>
        <translation>Behalten</translation>
    </message>
    <message>
        <source>Nothing keeps the visit from being stored any more; Ctrl+Enter stores it.</source>
        <translation>Nichts steht dem Speichern des Einsatzes mehr im Weg; Strg+Eingabe speichert ihn.</translation>
    </message>
    <message>
        <source>Choose the channel: type its tag (dashes may be left out) or words of it, then Enter.</source>
        <translation>Den Kanal wählen: sein Kennzeichen (auch ohne Striche) oder Wörter davon eingeben, dann Enter.</translation>
    </message>
</context>
</TS>
