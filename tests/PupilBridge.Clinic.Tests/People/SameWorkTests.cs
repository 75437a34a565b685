using System.Security.Cryptography;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Microsoft.Extensions.Time.Testing;
using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

/// <summary>
/// A name that nobody has costs what any other does: as many hash computations of as many rounds, as many writes of the access file and as many
/// notes in the journal. Counted, not timed: a clock of a busy machine would show nothing, or what is not there (OWASP ASVS 5.0, 6.3.8).
/// </summary>
public sealed class SameWorkTests : IDisposable
{
    private const string Good = PeopleBench.Good;
    private const string Bad = "not the password";
    private static readonly DateTime LongAgo = new(2001, 2, 3, 4, 5, 6, DateTimeKind.Utc);
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("same-work-test-");
    private readonly RandomNumberGenerator random = RandomNumberGenerator.Create();
    private readonly FakeTimeProvider time = new(new DateTimeOffset(2026, 3, 2, 8, 0, 0, TimeSpan.Zero));
    private readonly NotedJournal journal = new();
    private readonly CountedHasher hasher = new();
    private readonly PeopleDesk desk;

    public SameWorkTests()
    {
        desk = new PeopleDesk(
            new PeopleParts
            {
                DataFolder = folder.FullName,
                Time = time,
                Random = random,
                Journal = journal,
                Passwords = new PasswordCheck(hasher),
            }
        );
    }

    public void Dispose()
    {
        desk.Dispose();
        random.Dispose();
        folder.Delete(recursive: true);
    }

    [Fact]
    public async Task Each_of_seven_wrong_passwords_costs_the_same_for_a_name_that_is_there_and_for_one_that_is_not()
    {
        await AddAsync("MK");
        // Five are checked; the sixth and seventh meet the lock.
        for (var n = 1; n <= 7; n++)
        {
            var there = await WorkAsync("MK", Bad);
            var nobody = await WorkAsync("ZZ", Bad);
            Assert.Equal(there, nobody);
            Assert.Equal(n <= 5 ? 1 : 0, there.Hashes);
            Assert.Equal(n <= 5, there.Written);
        }
    }

    [Fact]
    public async Task After_a_lock_the_work_is_the_same_again()
    {
        await AddAsync("MK");
        for (var n = 1; n <= 5; n++)
        {
            await WorkAsync("MK", Bad);
            await WorkAsync("ZZ", Bad);
        }

        time.Advance(TimeSpan.FromMinutes(5));
        var there = await WorkAsync("MK", Bad);
        Assert.Equal(there, await WorkAsync("ZZ", Bad));
        Assert.Equal(1, there.Hashes);
    }

    [Theory]
    [InlineData("")]
    [InlineData("x")]
    [InlineData("three quiet cranes ")]
    public async Task Whatever_is_typed_as_the_password_it_costs_one_hash(string password)
    {
        await AddAsync("MK");
        var there = await WorkAsync("MK", password);
        Assert.Equal(there, await WorkAsync("ZZ", password));
        Assert.Equal(1, there.Hashes);
    }

    [Fact]
    public async Task A_password_longer_than_any_is_not_hashed_in_its_length_for_either()
    {
        await AddAsync("MK");
        var there = await WorkAsync("MK", new string('x', 100_000));
        Assert.Equal(there, await WorkAsync("ZZ", new string('x', 100_000)));
        Assert.Equal(0, hasher.LongestTyped);
    }

    [Fact]
    public async Task Somebody_switched_off_costs_with_a_wrong_password_what_nobody_does()
    {
        await AddAsync("MK");
        var by = PeopleBench.Administrator;
        await AddAsync("AD");
        await desk.ChangeAsync(by, "MK", new PersonChange(IsEnabled: false), CancellationToken.None);
        Assert.Equal(await WorkAsync("MK", Bad), await WorkAsync("ZZ", Bad));
    }

    private async Task AddAsync(string who)
    {
        var by = PeopleBench.Administrator;
        Assert.True((await desk.AddAsync(by, who, ClinicRole.Administrator, Good, CancellationToken.None)).Done);
    }

    private async Task<Work> WorkAsync(string who, string password)
    {
        var file = Path.Combine(folder.FullName, "access.json");
        File.SetLastWriteTimeUtc(file, LongAgo);
        hasher.Forget();
        var before = journal.Notes.Count;
        Assert.Null((await desk.SignInAsync(who, password, "console", CancellationToken.None)).Person);
        return new Work(
            hasher.Hashes,
            hasher.Rounds,
            journal.Notes.Count - before,
            File.GetLastWriteTimeUtc(file) != LongAgo
        );
    }

    private sealed record Work(int Hashes, int Rounds, int Notes, bool Written);

    /// <summary>The framework's hasher, with a count of what it was asked to do.</summary>
    private sealed class CountedHasher : IPasswordHasher<object>
    {
        private const int Each = 3;

        private readonly PasswordHasher<object> own = new(
            Options.Create(new PasswordHasherOptions { IterationCount = Each })
        );

        public int Hashes { get; private set; }

        public int Rounds { get; private set; }

        public int LongestTyped { get; private set; }

        public void Forget() => (Hashes, Rounds, LongestTyped) = (0, 0, 0);

        public string HashPassword(object user, string password)
        {
            Hashes++;
            Rounds += Each;
            return own.HashPassword(user, password);
        }

        public PasswordVerificationResult VerifyHashedPassword(
            object user,
            string hashedPassword,
            string providedPassword
        )
        {
            Hashes++;
            // The rounds of a hash stand in its bytes 5 to 8 (the framework's format 3).
            Rounds += System.Buffers.Binary.BinaryPrimitives.ReadInt32BigEndian(
                Convert.FromBase64String(hashedPassword).AsSpan(5)
            );
            LongestTyped = Math.Max(LongestTyped, providedPassword.Length);
            return own.VerifyHashedPassword(user, hashedPassword, providedPassword);
        }
    }
}
