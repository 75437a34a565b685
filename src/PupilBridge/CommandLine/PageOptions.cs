using System.CommandLine;

namespace PupilBridge.CommandLine;

/// <summary>How long a page of a list is, and how to go on after it.</summary>
/// <param name="listed">What is listed, in the plural.</param>
internal sealed class PageOptions(string listed)
{
    /// <summary>The most lines on a page.</summary>
    public Option<int> Limit { get; } = CommonOptions.Limit($"The most {listed} on the page", usual: 50);

    /// <summary>Where the page before ended.</summary>
    public Option<string?> After { get; } =
        new("--after")
        {
            Description = "Go on where the page before ended; it said what to write here.",
            HelpName = "MARK",
        };

    /// <summary>Remarks on how to go on.</summary>
    /// <param name="call">The invocation.</param>
    /// <param name="next">Where this page ended; null if there are no more.</param>
    public static void TellNext(Call call, string? next)
    {
        if (next is not null)
        {
            call.Remark($"There are more; go on with --after '{next}'.");
        }
    }
}
