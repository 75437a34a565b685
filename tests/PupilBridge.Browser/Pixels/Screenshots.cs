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

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "PupilBridge.sln")))
            folder = folder.Parent;
        return folder?.FullName
            ?? throw new InvalidOperationException("This does not run within a checkout of the project.");
    }
}
