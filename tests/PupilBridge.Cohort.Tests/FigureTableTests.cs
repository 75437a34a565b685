using System.Text.Json.Nodes;
using PupilBridge.Cohort.Results;
using PupilBridge.Exams.Criteria;

namespace PupilBridge.Cohort.Tests;

/// <summary>docs/criteria.md shows what docs/figures/criteria.json holds, of every criterion.</summary>
public sealed class FigureTableTests
{
    private static readonly string Docs = Find();

    [Fact]
    public void The_document_shows_the_figures_as_they_are()
    {
        var figures = JsonNode.Parse(File.ReadAllText(Path.Combine(Docs, "figures", "criteria.json")))!.AsObject();
        var criteria = figures["criteria"]!.AsObject();
        var document = File.ReadAllText(Path.Combine(Docs, "criteria.md")).ReplaceLineEndings("\n");
        Assert.Equal(FigureTable.Into(document, criteria), document);
        Assert.Equal(
            CriteriaCatalogue.All.Select(c => c.Id).Order(StringComparer.Ordinal),
            criteria.Select(c => c.Key).Order(StringComparer.Ordinal)
        );
    }

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "PupilBridge.sln")))
                return Path.Combine(folder.FullName, "docs");
        }

        throw new FileNotFoundException("docs stands beside PupilBridge.sln, above the folder of the tests.");
    }
}
