using Microsoft.Playwright;

namespace PupilBridge.Browser.Looks;

/// <summary>
/// Looks for text that is cut off and for a page that is wider than its window. A summary that is meant to end after some lines, with
/// dots, is not taken for cut off.
/// </summary>
public static class LayoutCheck
{
    private const string Script = """
        () => {
            const wrong = [];
            const page = document.documentElement;
            if (page.scrollWidth > page.clientWidth) {
                wrong.push(`the page is ${page.scrollWidth} px wide in a window of ${page.clientWidth} px`);
            }
            const scrolls = (style) => style === "auto" || style === "scroll";
            for (const element of document.body.querySelectorAll("*")) {
                const text = [...element.childNodes].filter((n) => n.nodeType === 3).map((n) => n.data.trim()).join(" ").trim();
                const style = getComputedStyle(element);
                const isHidden = element.clientWidth <= 1 || element.clientHeight <= 1 || style.visibility !== "visible";
                if (!text || isHidden || element.closest("svg") || /^(OPTION|SELECT|TEXTAREA|SCRIPT|STYLE)$/.test(element.tagName)) {
                    continue;
                }
                const name = `<${element.tagName.toLowerCase()} class="${element.className}"> '${text.slice(0, 60)}'`;
                if (element.scrollWidth > element.clientWidth + 1 && !scrolls(style.overflowX)) {
                    wrong.push(`${name} needs ${element.scrollWidth} px and has ${element.clientWidth} px in width`);
                }
                const isSummary = style.webkitLineClamp !== "none";
                if (element.scrollHeight > element.clientHeight + 2 && !isSummary && style.overflowY !== "visible" && !scrolls(style.overflowY)) {
                    wrong.push(`${name} needs ${element.scrollHeight} px and has ${element.clientHeight} px in height`);
                }
            }
            return wrong;
        }
        """;

    /// <summary>What is wrong on a page as it stands.</summary>
    /// <param name="page">The page.</param>
    /// <returns>One sentence for each place; empty if nothing is.</returns>
    public static async Task<IReadOnlyList<string>> RunAsync(IPage page) =>
        await page.EvaluateAsync<string[]>(Script).ConfigureAwait(false);
}
