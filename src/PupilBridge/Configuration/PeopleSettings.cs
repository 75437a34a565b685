using System.Globalization;
using Microsoft.Extensions.Configuration;
using PupilBridge.Clinic.People;

namespace PupilBridge.Configuration;

/// <summary>The settings about people who sign in.</summary>
internal static class PeopleSettings
{
    private const string WrongPasswords = "People:WrongPasswords";
    private const string LockMinutes = "People:LockMinutes";
    private const string LongestLockMinutes = "People:LongestLockMinutes";

    /// <summary>The settings, in the order in which they are documented.</summary>
    public static IReadOnlyList<HouseSetting> All { get; } =
    [
        new(
            WrongPasswords,
            "how many wrong passwords lock a name for a while",
            "5",
            "a whole number from 1 to 100",
            value => Number(value) is >= 1 and <= 100
        ),
        new(
            LockMinutes,
            "how many minutes the first lock lasts; each further one lasts twice as long",
            "5",
            "a whole number from 1 to 1440",
            value => Number(value) is >= 1 and <= 1440
        ),
        new(
            LongestLockMinutes,
            "how many minutes a lock lasts at most",
            "60",
            "a whole number from 1 to 1440",
            value => Number(value) is >= 1 and <= 1440
        ),
    ];

    /// <summary>When wrong passwords lock a name, by checked settings.</summary>
    /// <param name="configuration">The settings.</param>
    public static LockoutRule Read(IConfiguration configuration)
    {
        var usual = new LockoutRule();
        return new LockoutRule
        {
            WrongBeforeLock = Number(configuration[WrongPasswords]) ?? usual.WrongBeforeLock,
            FirstLock = Number(configuration[LockMinutes]) is { } first ? TimeSpan.FromMinutes(first) : usual.FirstLock,
            LongestLock = Number(configuration[LongestLockMinutes]) is { } longest
                ? TimeSpan.FromMinutes(longest)
                : usual.LongestLock,
        };
    }

    private static int? Number(string? value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
