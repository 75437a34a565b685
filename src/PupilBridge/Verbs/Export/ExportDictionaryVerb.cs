using PupilBridge.CommandLine;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Verbs.Export;

/// <summary><c>export dictionary</c>: what every column of the tables means.</summary>
internal sealed class ExportDictionaryVerb : Verb
{
    public ExportDictionaryVerb()
        : base(
            "dictionary",
            "Prints the data dictionary of all tables, in Markdown: every column with unit, range and meaning."
        )
    {
        Example("pupilbridge export dictionary > data-dictionary.md", "to keep beside an export");
        Does(
            (call, _) =>
            {
                call.Terminal.Out.Write(DataDictionaryPage.Write());
                return Task.FromResult(ExitCode.Done);
            }
        );
    }
}
