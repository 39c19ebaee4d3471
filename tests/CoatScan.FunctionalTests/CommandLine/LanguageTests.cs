using System.CommandLine;
using CoatScan.Cli;
using CoatScan.Cli.Commands;
using CoatScan.Cli.Text;
using CoatScan.Reports;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>What a person reads on the terminal is in the language asked for, complaints and explanations too; what programs read stays English.</summary>
public sealed class LanguageTests
{
    [Theory]
    [InlineData("de", "Nennen Sie einen Befehl: inspect, batch,")]
    [InlineData("es", "Indique una orden: inspect, batch,")]
    [InlineData("de", "Den Befehl 'paint' gibt es nicht. Es gibt: inspect,", "paint")]
    [InlineData("es", "No existe la orden 'paint'.", "paint")]
    [InlineData("de", "Dem Befehl 'inspect' fehlt die Angabe 'photo|folder'.\n'coatscan inspect --help' erklärt die Optionen.", "inspect")]
    [InlineData("es", "A la orden 'inspect' le falta 'photo|folder'.\n'coatscan inspect --help' explica las opciones.", "inspect")]
    [InlineData("de", "Die Option '--glos' gibt es nicht.", "inspect", "a.jpg", "--glos")]
    [InlineData("de", "Der Option '--panel' fehlt ihr Wert.", "inspect", "a.jpg", "--panel")]
    [InlineData("de", "--gloss-60 nimmt 0 bis 200, nicht '201'.", "inspect", "a.jpg", "--gloss-60", "201")]
    [InlineData("es", "--gloss-60 admite números con punto decimal, no '1,5'.", "inspect", "a.jpg", "--gloss-60", "1,5")]
    [InlineData("de", "--mm-per-px nimmt eine Zahl über 0 und bis 10, nicht '11.5'.", "inspect", "a.jpg", "--mm-per-px", "11.5")]
    [InlineData("es", "--format admite text, json, html, pdf o csv, no 'xml'.", "inspect", "a.jpg", "--format", "xml")]
    [InlineData("de", "--format html schreibt Dateien: nennen Sie mit --out einen Ordner dafür.", "inspect", "a.jpg", "--format", "html")]
    [InlineData("es", "--sheets admite finding, customer, job-card y vehicle, separados por comas, no 'all'.", "inspect", "a.jpg", "--sheets", "all")]
    [InlineData("de", "--paper nimmt a4 oder letter, nicht 'a3'.", "inspect", "a.jpg", "--paper", "a3")]
    [InlineData("es", "--server admite una dirección como http://localhost:8081, no 'localhost:8081'.", "inspect", "a.jpg", "--server", "localhost:8081")]
    [InlineData("de", "--data gilt für den Dienst in diesem Befehl und passt nicht zu --server.", "rank", "-", "--server", "http://localhost:1", "--data", "d")]
    [InlineData("de", "--evidence: 'rings' ist weder eine Datei noch eine Kennung wie form.rings;", "inspect", "a.jpg", "--evidence", "rings")]
    [InlineData("es", "--applied-on admite una fecha con la forma 2026-05-01, no '1 May'.", "inspect", "a.jpg", "--applied-on", "1 May")]
    [InlineData("de", "--reflected-distance-mm und --camera-distance-mm gehören zusammen", "inspect", "a.jpg", "--reflected-distance-mm", "300")]
    [InlineData("es", "--compare-zones admite dos rectángulos con la forma 100,200,64,64:300,200,64,64, no '1,2'.", "inspect", "a.jpg", "--compare-zones", "1,2")]
    [InlineData("de", "--compare-zones nimmt ein Foto oder braucht --same-panel; angegeben sind 2 Fotos.", "inspect", "a.jpg", "b.jpg", "--compare-zones", "1,2,30,40:50,2,30,40")]
    [InlineData("de", "Die Option '--finish' muss angegeben werden.", "spray-day", "--air", "20", "--humidity", "50")]
    [InlineData("es", "--host admite una dirección IP como 127.0.0.1 o 0.0.0.0, no 'my.server'.", "serve", "--host", "my.server")]
    [InlineData("de", "Die Angabe 'tcsh' ist nicht bekannt. Erlaubt sind:", "completion", "tcsh")]
    [InlineData("es", "No existe la carpeta 'no-such-folder'.", "batch", "no-such-folder")]
    [InlineData("de", "--out nimmt eine Datei, die auf .pdf oder .html endet, nicht 'guide.txt'.", "photo-guide", "--out", "guide.txt")]
    [InlineData("es", "--out: no se puede escribir 'no/such/card.pdf': Falta una parte de la ruta '", "scale-card", "--out", "no/such/card.pdf")]
    [InlineData("de", "--tenant nimmt 1 bis 63 Buchstaben, Ziffern, '-' oder '_', nicht 'a b'.", "keys", "create", "--tenant", "a b", "--scope", "read")]
    [InlineData("de", "--key-file: 'no-such-key' ist nicht zu lesen.", "rank", "-", "--server", "http://localhost:1", "--key-file", "no-such-key")]
    public async Task Complaint_is_in_the_language_asked_for(string language, string complaint, params string[] args)
    {
        using var folder = new TempFolder();
        string[] data = args is ["keys", ..] ? ["--data", folder.Path] : [];

        var run = await CommandLineRun.Of(["--language", language, .. args, .. data]);

        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Language_stands_behind_the_command_too()
    {
        var run = await CommandLineRun.Of("inspect", "--language", "de");

        Assert.StartsWith("Dem Befehl 'inspect' fehlt", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de", "Der Dienst unter http://127.0.0.1:1/ antwortet nicht. Läuft er, und ist das sein gRPC-Port?")]
    [InlineData("es", "El servicio en http://127.0.0.1:1/ no contesta.")]
    public async Task Server_that_does_not_answer_is_told_in_the_language(string language, string complaint)
    {
        var run = await CommandLineRun.Of("conditions", "--server", "http://127.0.0.1:1", "--language", language);

        Assert.Equal(3, run.Code);
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de", "Das Foto endet zu früh: dem JPEG fehlt die Endmarke. Senden Sie die ganze Datei.", "kopieren Sie sie noch einmal")]
    [InlineData("es", "La foto acaba antes de tiempo: al JPEG le falta la marca final. Envíe el archivo entero.", "cópielo de nuevo")]
    public void Refused_photo_is_told_in_the_language(string language, string what, string advice)
    {
        var page = new TextPage(200, styled: false, SheetWords.Of(language));

        ErrorText.Write(page, "the panel.jpg", new("INVALID_ARGUMENT", "PHOTO_TRUNCATED", "The photo ends too early: the JPEG has no end marker. Send the whole file."));

        Assert.Contains(what, page.ToString(), StringComparison.Ordinal);
        Assert.Contains(advice, page.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("FAILED", page.ToString(), StringComparison.Ordinal);
        Assert.Contains("the panel.jpg", page.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Json_stays_english_in_every_language()
    {
        const string wrong = "{\"evidence\":\"form.rings\"}\n";
        using var folder = new TempFolder();

        var run = await CommandLineRun.WithInput(wrong, "rank", "-", "--format", "json", "--data", folder.Path, "--language", "de");

        Assert.Contains("'evidence' is a list of ids", run.Out, StringComparison.Ordinal);
        Assert.Contains("\"reason\":\"FIELD_INVALID\"", run.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    public void Every_reason_has_words(string language)
    {
        var words = new ReaderWords(SheetWords.Of(language));
        string[] own = ["FILE_NOT_FOUND", "FILE_NOT_READABLE", "FOLDER_WITHOUT_PHOTOS", "PHOTO_CHANGED", "CANCELLED", "UNAVAILABLE", "DEADLINE_EXCEEDED", "INTERNAL"];
        var all = Enum.GetNames<Findings.ErrorReason>().Select(name => string.Concat(name.Select((letter, at) =>
            at > 0 && char.IsUpper(letter) ? $"_{letter}" : $"{letter}")).ToUpperInvariant()).Concat(own);

        Assert.All(all, reason => Assert.NotEqual(Phrase.OfId(reason).ToLowerInvariant(), ErrorText.Reason(new("", reason, ""), words)));
    }

    [Theory]
    [InlineData("de")]
    [InlineData("es")]
    public void Every_command_and_option_is_explained(string language)
    {
        var words = SheetWords.Of(language).Trade;
        var root = CommandLineProgram.Root(new Session(TextReader.Null, TextWriter.Null, TextWriter.Null, Terminal.Plain));

        var missing = Described(root).Select(HelpText.WordsOf).Concat(HelpText.Heads).Where(text => words.Fill(text) == text).Distinct();

        Assert.Empty(string.Join("\n", missing));
    }

    [Theory]
    [InlineData("de", "Aufruf:", "Fotos (JPEG oder PNG)")]
    [InlineData("es", "Uso:", "Fotos (JPEG o PNG)")]
    public async Task Help_is_in_the_language(string language, string usage, string photos)
    {
        var run = await CommandLineRun.Of("inspect", "--help", "--language", language);

        Assert.Equal(0, run.Code);
        Assert.Contains(usage, run.Out, StringComparison.Ordinal);
        Assert.Contains(photos, run.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("Options:", run.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("118,125", false, "118 125")]
    [InlineData("118,125", true, "118 125")]
    [InlineData("118.5,125", true, "118.5 125")]
    [InlineData("118,5", false, "118 5")]
    [InlineData("118,5", true, null)]
    [InlineData("118,25", true, null)]
    [InlineData("118;125", true, "118 125")]
    [InlineData("118,5;125", true, "118.5 125")]
    [InlineData("118,5;125", false, null)]
    [InlineData("118,5 125", true, "118.5 125")]
    [InlineData("118, 125", true, "118 125")]
    [InlineData("118, 125, 97", false, "118 125 97")]
    [InlineData("118,5, 125", true, null)]
    [InlineData("118,125 97", true, null)]
    [InlineData(" 118 ", true, "118")]
    public void Readings_are_taken_apart_only_where_they_read_one_way(string given, bool hasDecimalComma, string? words)
    {
        var split = NumberList.Split(given, hasDecimalComma);

        Assert.Equal(words, split is null ? null : string.Join(' ', split));
    }

    [Theory]
    [InlineData("de", "lässt sich auf zwei Arten lesen")]
    [InlineData("es", "se puede leer de dos maneras")]
    public async Task Film_readings_that_read_two_ways_are_refused_with_the_way_to_write_them(string language, string complaint)
    {
        var run = await CommandLineRun.Of("inspect", "a.jpg", "--film-um", "118,5", "--language", language);

        Assert.Equal(2, run.Code);
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
        Assert.Contains("--film-um 118.5 --film-um 125", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--film-um", "118.5", "--film-um", "125")]
    [InlineData("--film-um", "118.5,125")]
    [InlineData("--film-um", "118.5;125")]
    [InlineData("--film-um", "118.5 125")]
    public void Film_readings_may_be_given_in_every_way(params string[] film)
    {
        var facts = new FactsOptions();
        var command = new RootCommand { LanguageOption.Create() };
        facts.AddTo(command);

        Assert.Equal([118.5, 125], facts.Read(command.Parse(film)).Readings.FilmUm);
    }

    private static IEnumerable<string> Described(Command command) => command.Hidden
        ? []
        : ((IEnumerable<Symbol>)[command, .. command.Arguments, .. command.Options]).Select(part => part.Description ?? "")
            .Concat(command.Subcommands.SelectMany(Described));
}
