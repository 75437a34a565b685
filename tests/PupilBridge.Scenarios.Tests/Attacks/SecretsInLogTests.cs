using System.Text;

namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>
/// What the service says at its most talkative while people sign in, mistype, and programs bring keys: no secret of any of them, and no bytes
/// that a terminal or a reader of logs would take for something else (ASVS 5.0, 16.2.5, 16.4.1).
/// </summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class SecretsInLogTests(AttackedService service)
{
    [Fact]
    public async Task No_password_key_cookie_or_token_is_ever_said()
    {
        using var visitor = await service.FreshAsync("F6");
        const string Mistyped = "my secret that was mistyped";
        await visitor.SignInAsync("F6", Mistyped);
        await visitor.SignInAsync(Mistyped, "x");
        var token = await visitor.FormTokenAsync();
        await visitor.GetAsync($"/api/v1/exams?key={service.Key}");
        await service.Raw.SendAsync(
            $"GET /api/v1/exams HTTP/1.1\r\nHost: {service.Host}\r\nAuthorization: Bearer {service.Key}\r\nConnection: close\r\n\r\n"
        );
        string[] secrets =
        [
            AttackedService.Password,
            Uri.EscapeDataString(AttackedService.Password),
            AttackedService.Password.Replace(' ', '+'),
            Mistyped,
            service.Key,
            token,
            .. visitor.Cookies.Split("; ").Select(cookie => cookie.Split('=', 2)[1]),
        ];
        var said = service.Said;
        Assert.All(secrets, secret => Assert.DoesNotContain(secret, said, StringComparison.OrdinalIgnoreCase));
        // The lock is held and holds nothing.
        var files = Directory
            .EnumerateFiles(service.DataFolder, "*", SearchOption.AllDirectories)
            .Where(path => Path.GetFileName(path) is not ("lock" or "desk.sock"));
        foreach (var file in files)
        {
            await using var stream = new FileStream(
                file,
                FileMode.Open,
                FileAccess.Read,
                FileShare.ReadWrite | FileShare.Delete
            );
            var bytes = new byte[stream.Length];
            await stream.ReadExactlyAsync(bytes);
            foreach (var secret in secrets.Take(5))
                Assert.True(bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(secret)) < 0, $"{file} holds a secret");
        }
    }

    [Fact]
    public async Task A_path_with_escape_sequences_and_line_ends_makes_one_line_without_them()
    {
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        foreach (var path in new[] { "/exams/%1b%5b2J%0d%0afake", "/patients/%1b%5d0;x%07", "/%c2%9b2J", "/%e2%80%ae" })
            await visitor.GetAsync(path);
        Assert.DoesNotContain('\x1b', service.Said);
        Assert.DoesNotContain(service.Said.Split('\n'), line => line.StartsWith("fake", StringComparison.Ordinal));
    }

    [Fact]
    public void No_other_account_of_the_machine_can_read_what_the_service_made()
    {
        var open = Directory
            .EnumerateFileSystemEntries(service.DataFolder, "*", SearchOption.AllDirectories)
            .Where(path => (File.GetUnixFileMode(path) & (UnixFileMode)0b000_111_111) != 0)
            .Select(path => $"{path} {File.GetUnixFileMode(path)}");
        Assert.Empty(open);
    }
}
