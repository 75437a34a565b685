using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Tokens;

namespace PupilBridge.Exchange.Tests.Report;

/// <summary>Reads PDF files with a reader that is not the writer's.</summary>
internal sealed class PdfReading : IDisposable
{
    private readonly PdfDocument document;

    public PdfReading(byte[] file) => document = PdfDocument.Open(file);

    public IReadOnlyList<Page> Pages => [.. document.GetPages()];

    public DictionaryToken Catalog => document.Structure.Catalog.CatalogDictionary;

    /// <summary>All letters in the order in which they were written, without white space.</summary>
    public string Letters =>
        Squeeze(string.Concat(document.GetPages().SelectMany(p => p.Letters).Select(l => l.Value)));

    /// <summary>The title in the file's own information.</summary>
    public string? Title => document.Information.Title;

    /// <summary>The tags of the structure tree, in order, with the words that stand for a figure.</summary>
    public IReadOnlyList<(string Tag, string? Alternative)> Tags()
    {
        List<(string, string?)> tags = [];
        Walk(Catalog.Data["StructTreeRoot"], tags);
        return tags;
    }

    /// <summary>A text without white space, to be compared with what stands in lines.</summary>
    public static string Squeeze(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    public void Dispose() => document.Dispose();

    private void Walk(IToken token, List<(string, string?)> tags)
    {
        switch (Read(token))
        {
            case ArrayToken array:
                foreach (var one in array.Data)
                    Walk(one, tags);
                break;
            case DictionaryToken element:
                if (element.Data.TryGetValue("S", out var tag))
                    tags.Add((((NameToken)Read(tag)).Data, Words(element)));
                if (element.Data.TryGetValue("K", out var kids))
                    Walk(kids, tags);
                break;
            default:
                break;
        }
    }

    private string? Words(DictionaryToken element) =>
        !element.Data.TryGetValue("Alt", out var words)
            ? null
            : Read(words) switch
            {
                StringToken text => text.Data,
                HexToken hex => hex.Data,
                var other => other.ToString(),
            };

    private IToken Read(IToken token) =>
        token is IndirectReferenceToken reference ? Read(document.Structure.GetObject(reference.Data).Data) : token;
}
