using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Tokens;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>
/// Looks through all that a PDF file holds for what a viewer would do by itself or at a click (ISO 32000-1, 12.5 and 12.6): actions, scripts,
/// links, forms, attachments. A report is ink on paper and has none of it.
/// </summary>
internal sealed class PdfActions
{
    // The key A is not among them: in a structure element it holds attributes (14.7.5). What it holds in a link is found by its kind.
    private static readonly HashSet<string> Doing = new(StringComparer.Ordinal)
    {
        "OpenAction",
        "AA",
        "JS",
        "JavaScript",
        "URI",
        "Launch",
        "GoTo",
        "GoToR",
        "GoToE",
        "Rendition",
        "SubmitForm",
        "ImportData",
        "Annots",
        "AcroForm",
        "XFA",
        "EmbeddedFile",
        "EmbeddedFiles",
        "EF",
        "RichMedia",
        "Movie",
        "Sound",
    };

    private readonly PdfDocument document;
    private readonly HashSet<IndirectReference> seen = [];
    private readonly List<string> found = [];

    private PdfActions(PdfDocument document) => this.document = document;

    /// <summary>Looks through a file.</summary>
    /// <param name="file">The file.</param>
    /// <returns>What was found, and how many objects were looked at.</returns>
    public static (IReadOnlyList<string> Found, int Objects) Of(byte[] file)
    {
        using var document = PdfDocument.Open(file);
        var look = new PdfActions(document);
        look.Walk(document.Structure.Catalog.CatalogDictionary);
        return (look.found, look.seen.Count);
    }

    private void Walk(IToken token)
    {
        switch (token)
        {
            case IndirectReferenceToken reference when seen.Add(reference.Data):
                Walk(document.Structure.GetObject(reference.Data).Data);
                break;
            case ArrayToken array:
                foreach (var one in array.Data)
                    Walk(one);
                break;
            case StreamToken stream:
                Walk(stream.StreamDictionary);
                break;
            case DictionaryToken dictionary:
                foreach (var (key, value) in dictionary.Data)
                {
                    Look(key);
                    Walk(value);
                }

                break;
            case NameToken name:
                Look(name.Data);
                break;
            default:
                break;
        }
    }

    private void Look(string name)
    {
        if (Doing.Contains(name))
            found.Add(name);
    }
}
