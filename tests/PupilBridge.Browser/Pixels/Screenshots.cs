using Microsoft.Playwright;

namespace PupilBridge.Browser.Pixels;

/// <summary>Pictures of the pages, kept in a folder that is not under version control, to be looked at by people.</summary>
public static class Screenshots
{
    /// <summary>The folder: <c>tests/.out/screens</c> of the checkout.</summary>
    public static string Folder { get; } =
        Directory.CreateDirectory(Path.Combine(Root(), "tests", ".out", "screens")).FullName;

    /// <summary>Takes and keeps a picture of what the window shows.</summary>
    /// <param name="page">The page.</param>
    /// <param name="name">Its name, without an ending.</param>
    /// <param name="whole">Whether the whole page is wanted, also what does not fit into the window.</param>
    /// <returns>The picture as PNG.</returns>
    public static Task<byte[]> TakeAsync(IPage page, string name, bool whole = false)
    {
        ArgumentNullException.ThrowIfNull(page);
        return page.ScreenshotAsync(
            new PageScreenshotOptions
            {
                Path = Path.Combine(Folder, name + ".png"),
                FullPage = whole,
                Caret = ScreenshotCaret.Initial,
                Timeout = 60_000,
            }
        );
    }

    /// <summary>Takes and keeps a picture of a page on which a test failed.</summary>
    /// <param name="page">The page.</param>
    /// <param name="whole">Whether the whole page is wanted.</param>
    /// <returns>The page's address and the picture's place, for the test's output.</returns>
    public static async Task<string> OfFailureAsync(IPage page, bool whole = false)
    {
        ArgumentNullException.ThrowIfNull(page);
        var name = $"failed-{Guid.NewGuid():N}";
        await TakeAsync(page, name, whole).ConfigureAwait(false);
        return $"{page.Url}: tests/.out/screens/{name}.png";
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "PupilBridge.sln")))
            folder = folder.Parent;
        return folder?.FullName
            ?? throw new InvalidOperationException("This does not run within a checkout of the project.");
    }
}
