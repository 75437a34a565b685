using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace PupilBridge.Browser.Looks;

/// <summary>Asks axe whether a page can be used by everyone, by the success criteria of WCAG 2.0, 2.1 and 2.2 at A and AA.</summary>
public static class AxeCheck
{
    private static readonly AxeRunOptions Criteria = new()
    {
        RunOnly = new RunOnlyOptions
        {
            Type = "tag",
            Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"],
        },
    };

    /// <summary>What axe finds on a page as it stands.</summary>
    /// <param name="page">The page.</param>
    /// <returns>One sentence for each place; empty if it finds nothing.</returns>
    public static async Task<IReadOnlyList<string>> RunAsync(IPage page)
    {
        var result = await page.RunAxe(Criteria).ConfigureAwait(false);
        if (result.Passes.Length == 0)
            throw new InvalidOperationException($"axe looked at nothing on {page.Url}.");
        return
        [
            .. result.Violations.SelectMany(v =>
                v.Nodes.Select(node => $"{v.Id} ({v.Help}) at {node.Html}: {Why(node)}")
            ),
        ];
    }

    private static string Why(AxeResultNode node) =>
        string.Join("; ", node.Any.Concat(node.All).Concat(node.None).Select(check => check.Message));
}
