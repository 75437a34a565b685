using System.Globalization;

namespace PupilBridge.Demo;

/// <summary>The data folder of one demo run: always a fresh one, so that no run meets what another left.</summary>
internal static class DemoFolder
{
    /// <summary>Makes a fresh folder.</summary>
    /// <param name="parent">The folder that holds all demo runs.</param>
    /// <param name="seed">The seed, for the name.</param>
    /// <param name="now">The time of day, for the name.</param>
    /// <returns>The full path of a folder that did not exist before.</returns>
    public static string Make(string parent, long seed, DateTimeOffset now)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"{now:yyyyMMdd-HHmmss}-seed-{seed}");
        for (var n = 1; ; n++)
        {
            var path = Path.Combine(parent, n == 1 ? name : string.Create(CultureInfo.InvariantCulture, $"{name}-{n}"));
            if (!Path.Exists(path))
            {
                Directory.CreateDirectory(path);
                return path;
            }
        }
    }
}
