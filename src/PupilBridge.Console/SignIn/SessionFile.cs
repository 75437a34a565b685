using System.Text.Json;

namespace PupilBridge.Console.SignIn;

/// <summary>
/// The sessions on disk, beside the keys that seal their cookies and as private as those. Losing it only means signing in again.
/// </summary>
internal sealed class SessionFile
{
    private readonly string path;
    private readonly Lock gate = new();
    private byte[] last = [];

    public SessionFile(string dataFolder) => path = Path.Combine(AccessKeys.Make(dataFolder), "sessions.json");

    /// <summary>The sessions kept; none if there is no file that can be read.</summary>
    public IReadOnlyList<Session> Read()
    {
        try
        {
            var kept = JsonSerializer.Deserialize<List<Kept>>(File.ReadAllBytes(path), JsonSerializerOptions.Web) ?? [];
            return [.. kept.Select(one => new Session(one.Id, one.Who, one.Stamp, one.Where, one.LastActivity))];
        }
        catch (Exception gone) when (gone is IOException or JsonException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    /// <summary>Keeps the sessions, if anything about them is new.</summary>
    public void Write(IEnumerable<Session> sessions)
    {
        lock (gate)
        {
            var content = JsonSerializer.SerializeToUtf8Bytes(
                sessions
                    .Select(s => new Kept(s.Id, s.Who, s.Stamp, s.Where, s.LastActivity))
                    .OrderBy(s => s.Id, StringComparer.Ordinal),
                JsonSerializerOptions.Web
            );
            if (content.AsSpan().SequenceEqual(last))
            {
                return;
            }

            try
            {
                var options = new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.Write };
                if (!OperatingSystem.IsWindows())
                {
                    options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
                }

                using (var stream = new FileStream(path + ".new", options))
                {
                    stream.Write(content);
                }

                File.Move(path + ".new", path, overwrite: true);
                last = content;
            }
            catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
            {
                // A full disk must sign nobody off; it is tried again with the next change.
            }
        }
    }

    private sealed record Kept(string Id, string Who, string Stamp, string Where, DateTimeOffset LastActivity);
}
