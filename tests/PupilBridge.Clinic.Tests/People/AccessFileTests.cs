using System.Text;
using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

public sealed class AccessFileTests : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("access-test-");
    private readonly List<string> remarks = [];

    private string Path => System.IO.Path.Combine(folder.FullName, AccessFile.Name);

    [Fact]
    public void No_file_is_nobody() => Assert.Empty(Open().Read().People);

    [Fact]
    public async Task What_is_written_is_read_and_only_its_owner_may_read_it()
    {
        await AddAsync(Open(), "MK");
        Assert.Equal("MK", Assert.Single(Open().Read().People).Who);
        Assert.Equal(
            [AccessFile.Name, "access.lock"],
            folder.EnumerateFiles().Select(file => file.Name).Order(StringComparer.Ordinal)
        );
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Path));
        }
    }

    [Fact]
    public async Task A_file_that_others_may_read_is_closed_to_them_and_that_is_told()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        await AddAsync(Open(), "MK");
        File.SetUnixFileMode(Path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead);
        Assert.Single(Open().Read().People);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(Path));
        Assert.Contains(Path, Assert.Single(remarks), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{\"people\": [")]
    [InlineData("null")]
    [InlineData("{\"version\": 1, \"people\": null}")]
    [InlineData("{\"version\": 1, \"people\": [{\"who\": \"MK\"}]}")]
    [InlineData("{\"version\": 2, \"people\": []}")]
    public async Task A_damaged_or_newer_file_is_named_and_never_overwritten(string content)
    {
        await File.WriteAllTextAsync(Path, content);
        var file = Open();
        var reading = Assert.Throws<AccessFileException>(() => file.Read());
        Assert.Contains(Path, reading.Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<AccessFileException>(() => AddAsync(file, "MK"));
        Assert.Equal(content, await File.ReadAllTextAsync(Path));
    }

    [Fact]
    public async Task A_half_written_new_file_left_by_a_crash_harms_nothing()
    {
        await AddAsync(Open(), "MK");
        await File.WriteAllTextAsync(Path + ".new", "{\"peo");
        Assert.Equal("MK", Assert.Single(Open().Read().People).Who);
        await AddAsync(Open(), "JL");
        Assert.Equal(["MK", "JL"], Open().Read().People.Select(p => p.Who));
    }

    [Fact]
    public async Task A_change_by_another_program_is_seen_at_once()
    {
        var (service, command) = (Open(), Open());
        Assert.Empty(service.Read().People);
        await AddAsync(command, "MK");
        Assert.Single(service.Read().People);
        await AddAsync(command, "JL");
        Assert.Equal(2, service.Read().People.Count);
    }

    [Fact]
    public async Task Two_programs_that_change_it_at_once_lose_nothing()
    {
        var files = new[] { Open(), Open(), Open() };
        var names = Enumerable.Range(0, 24).Select(n => $"P{n:00}").ToList();
        await Task.WhenAll(names.Select((name, n) => Task.Run(() => AddAsync(files[n % files.Length], name))));
        Assert.Equal(names, Open().Read().People.Select(p => p.Who).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task No_hash_and_no_stamp_is_lost_on_the_way_to_the_disk_and_back()
    {
        var before = await AddAsync(Open(), "MK");
        Assert.Equal(before, Assert.Single(Open().Read().People));
        var text = await File.ReadAllTextAsync(Path, Encoding.UTF8);
        Assert.Contains("\"Examiner, Clinician\"", text, StringComparison.Ordinal);
    }

    public void Dispose() => folder.Delete(recursive: true);

    private AccessFile Open() => new(folder.FullName, TimeProvider.System, remarks.Add);

    private static Task<StoredPerson> AddAsync(AccessFile file, string who)
    {
        var person = new StoredPerson
        {
            Who = who,
            Roles = ClinicRole.Examiner | ClinicRole.Clinician,
            IsEnabled = true,
            PasswordHash = "h",
            Stamp = "s",
            Attempts = new Attempts(2, 1, new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero)),
        };
        return file.ChangeAsync(list => (list.With(person), person), CancellationToken.None);
    }
}
