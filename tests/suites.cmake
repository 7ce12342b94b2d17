# Read by ctest when it starts: one entry, ROOM.Suite, for every suite of a test program. The tests of a suite share
# one process: a process for each of them costs more than most of the tests do.

# suites_of(PROGRAM ROOM properties...): the entries are written anew when the program is.
function(suites_of PROGRAM ROOM)
  if(NOT EXISTS ${PROGRAM})
    add_test(${ROOM}_NOT_BUILT ${PROGRAM})
    return()
  endif()
  set(ENTRIES ${PROGRAM}.ctest.cmake)
  if(${PROGRAM} IS_NEWER_THAN ${ENTRIES})
    execute_process(COMMAND ${PROGRAM} --gtest_list_tests OUTPUT_VARIABLE TOLD RESULT_VARIABLE FAILED)
    if(NOT FAILED EQUAL 0)
      message(FATAL_ERROR "${PROGRAM} does not tell its tests: ${FAILED}")
    endif()
    string(REGEX REPLACE " *#[^\n]*" "" TOLD "${TOLD}") # what a parameter stands for
    string(REGEX MATCHALL "[^ \n]+\\.\n" SUITES "${TOLD}")
    set(TEXT "")
    foreach(SUITE IN LISTS SUITES)
      string(REGEX REPLACE "\\.\n$" "" SUITE "${SUITE}")
      string(APPEND TEXT "add_test([[${ROOM}.${SUITE}]] [[${PROGRAM}]] [[--gtest_filter=${SUITE}.*]])\n"
                         "set_tests_properties([[${ROOM}.${SUITE}]] PROPERTIES LABELS ${ROOM} ${ARGN})\n")
    endforeach()
    file(WRITE ${ENTRIES} "${TEXT}")
  endif()
  include(${ENTRIES})
endfunction()
